"""How the HTML report looks: on a screen of any width, in the dark, and on paper from a printer with one colour."""

from __future__ import annotations

# Two colours, those of the reader: nothing is said by colour or by grey. What is a caution has a bar and a word.
_SCREEN = """
:root { color-scheme: light dark; }
* { box-sizing: border-box; }
body { font: 1rem/1.5 Arial, 'Liberation Sans', Helvetica, sans-serif; margin: 0 auto; max-width: 48rem;
  padding: 1rem; color: CanvasText; background: Canvas; }
h1, h2, h3, th, figcaption { line-height: 1.25; text-wrap: balance; }
h1 { font-size: 1.75rem; margin: 0 0 .5rem; }
h2 { font-size: 1.3rem; margin: 2.5rem 0 .75rem; padding-bottom: .2rem; border-bottom: 2px solid; }
h3 { font-size: 1.05rem; margin: 1.75rem 0 .4rem; }
p, ul, ol { margin: .5rem 0; } ul, ol { padding-left: 1.4rem; } li { margin: .2rem 0; }
p, ul, dl { max-width: 42rem; } p, li, dd, th, td, h1, h2, h3, figcaption { overflow-wrap: anywhere; }
section + section { margin-top: 3.5rem; padding-top: 2rem; border-top: 6px double; }
.strong { font-weight: bold; }
.caution { border-left: 5px solid; padding-left: .8rem; } ul.caution { padding-left: 2rem; }
.caution + .caution { margin-top: -.5rem; padding-top: .5rem; }
.quiet { font-size: .9em; }
table { border-collapse: collapse; width: 100%; margin: .75rem 0; }
th, td { padding: .35rem .8rem .35rem 0; text-align: left; vertical-align: top; border-bottom: 1px solid; }
thead th { vertical-align: bottom; border-bottom-width: 2px; }
tbody th { font-weight: normal; } .figures th:first-child { width: 36%; }
.figures:not(.tall) th:first-child { width: 62%; }
.checks th, .checks td { border: 1px solid; padding: .35rem .5rem; } .checks .room { width: 18%; }
.checks .what { width: 38%; } .checks th, .checks td { line-height: 1.35; } .need { display: block; font-weight: bold; }
.checks tbody th { padding-left: 2rem; position: relative; }
.checks tbody th::before { content: ''; position: absolute; left: .5rem; top: .45rem; width: 1rem; height: 1rem;
  border: 1.5px solid; }
nav ol { columns: 2; column-gap: 2.5rem; padding-left: 1.8rem; }
nav li { break-inside: avoid; margin: 0; padding: .2rem 0; }
a { color: LinkText; } .jump a::before { content: '\\2193\\a0' / ''; }
.jump a { display: inline-block; padding: .25rem 0; }
:focus-visible { outline: 3px solid; outline-offset: 2px; } [tabindex='-1']:focus { outline: 2px dashed; }
figure { margin: 1.5rem 0; } figcaption { font-weight: bold; margin-bottom: .5rem; }
figure svg { display: block; max-width: 100%; height: auto; background: #fff; color: #000; forced-color-adjust: none; }
dl { display: grid; grid-template-columns: minmax(6rem, 12rem) 1fr; gap: .3rem 1rem; margin: .75rem 0; }
dt { font-weight: bold; overflow-wrap: anywhere; } dd { margin: 0; }
.working { list-style: none; padding-left: 0; } .working li { margin: .6rem 0; }
.line { display: block; padding-left: 1.5rem; } code, pre { font-family: 'Liberation Mono', Consolas, 'Courier New',
  monospace; font-size: .9em; } code { overflow-wrap: anywhere; } pre { line-height: 1.15; overflow-x: auto; }
"""
_FILL_IN = """
.fill { margin: 1.25rem 0; } .fill p { margin: .15rem 0; }
.fill .line { border-bottom: 1px solid; padding: 5mm 0 0; min-height: 4mm; max-width: none; }
.lead { font-style: italic; } .key { font-size: .85em; font-weight: normal; }
.head { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: flex-end; gap: 0 1em; }
.head p { max-width: 100%; }
.blank { display: inline-block; min-width: 32mm; min-height: 9mm; border-bottom: 1px solid;
  max-width: 100%; line-height: 9mm; text-align: center; vertical-align: bottom; } .wide { min-width: 60mm; }
.ticks { list-style: none; padding-left: 1.5em; margin: .2em 0; } .rows { display: flex; flex-wrap: wrap; gap: 0 2em; }
.ticks li { padding: .3em 0 0 1.8em; margin: 0; text-indent: -1.8em; break-inside: avoid; }
.many { columns: 2; column-gap: 2em; }
.box { display: inline-block; width: 4mm; height: 4mm; border: 1px solid; margin-right: .5em; line-height: 4mm;
  font-weight: bold; text-align: center; text-indent: 0; vertical-align: -.5mm; }
"""
# The words of these headings stand in the header of the table too, which comes again on each page.
_ONLY_HEARD = """
@media print, (min-width: 38.01rem) {
  .sheet h2:has(+ .checks) { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
}
"""
# Tables of three columns and more are read line by line where the screen is narrow.
_NARROW = """
@media screen and (max-width: 38rem) {
  nav ol, .many { columns: 1; } dl { display: block; } dd { margin: 0 0 .5rem; }
  .tall, .tall tbody, .tall tr, .tall th, .tall td { display: block; }
  .tall thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .tall tr { padding: .5rem 0; border-bottom: 1px solid; } .tall th, .tall td { border: 0; padding: .1rem 0; }
  .figures.tall th { width: auto; } .figures.tall tbody th { font-weight: bold; }
  .tall td[data-head]::before { content: attr(data-head) ': '; }
  .checks .what, .checks .room { width: auto; } .checks td.room { display: none; }
  .checks tbody th { padding-left: 1.8rem; } .checks tbody th::before { left: .1rem; top: .25rem; }
  .checks tbody td { padding-left: 1.8rem; }
}
"""
# The sheet is made to fit one page of A4 or Letter with 29 lines that must be there: rows of two lines, never less
# than 7 mm high, at least 25 mm to write in, what is nice to have in two columns below. What is more flows on.
_PRINT = """
@media print {
  :root { color-scheme: light; font-size: 9.5pt; }
  body { line-height: 1.35; max-width: none; padding: 0; }
  .jump { display: none; } a { color: inherit; text-decoration: none; }
  p, ul, dl { max-width: none; } .report p, .report ul { max-width: 165mm; }
  p, ul, ol { margin: .3rem 0; orphans: 2; widows: 2; } nav li { padding: 0; }
  h1 { font-size: 1.6rem; } h2 { margin-top: 1.6rem; } h3 { margin-top: 1.1rem; }
  th, td { padding: .2rem .6rem .2rem 0; }
  h1, h2, h3, figcaption, dt, h2 + p, h3 + p, h2 + p + .caution { break-after: avoid; }
  tr, li, dd, .fill, .steps { break-inside: avoid; } .fill { margin: .9rem 0; }
  p.strong, p:has(+ .working) { break-after: avoid; } figure svg { max-height: 235mm; break-inside: avoid; }
  section + section { margin: 0; padding: 0; border: 0; } .apart, .sheet + section { break-before: page; }
  .working { columns: 2; column-gap: 8mm; font-size: .95em; } .working li { margin: 0 0 .4rem; }
  .line { padding-left: 1rem; }
  dl { display: block; columns: 2; column-gap: 8mm; } dt, dd { display: inline; } dt { margin-right: .4em; }
  dd::after { content: '\\A'; white-space: pre; }
  .sheet { font-size: 8pt; line-height: 1.15; }
  .sheet h1, .sheet h1 + .strong { display: inline; line-height: 1.2; }
  .sheet h1 { font-size: 12.5pt; margin-right: 4mm; }
  .sheet h2 { font-size: 9pt; margin: 0 0 .5mm; padding: 0; border: 0; }
  .sheet p, .sheet ul { margin: .8mm 0; } .sheet ul { padding-left: 4mm; } .sheet li { margin: 0; }
  .sheet .caution { border-left-width: 3px; padding-left: 1.5mm; }
  .sheet .caution + .caution { margin-top: -.8mm; padding-top: .8mm; }
  .sheet table { margin: 0 0 1mm; table-layout: fixed; }
  .sheet .checks th, .sheet .checks td { padding: .1mm 1.2mm; border-width: .5pt;
    line-height: inherit; }
  .sheet tbody th, .sheet tbody td { height: 7mm; } .sheet .checks tbody th { padding-left: 5.5mm; }
  .sheet .checks tbody th::before { left: 1.2mm; top: .6mm; width: 3mm; height: 3mm; border-width: .75pt; }
  .sheet .checks .what { width: 73mm; } .sheet .checks .room { width: 27mm; }
  .rest { columns: 2; column-gap: 5mm; margin-top: 1mm; } .rest p { break-inside: avoid; }
  .sheet .rest .checks .what { width: 36mm; } .sheet .rest .checks .room { width: 25.5mm; }
}
"""
STYLE = _SCREEN + _FILL_IN + _ONLY_HEARD + _NARROW + _PRINT


def page_margins(title: str) -> str:
    """The margins of every printed page: whose page it is on the left, its number on the right.

    >>> "\\\\3c b\\\\3e " in page_margins("<b>")
    True
    """
    words = "".join(sign if sign.isascii() and sign.isalnum() else f"\\{ord(sign):x} " for sign in title)
    box = "font: 8pt Arial, 'Liberation Sans', Helvetica, sans-serif; vertical-align: top; padding-top: 3mm;"
    return (
        f"@page {{ margin: 12mm; @bottom-left {{ content: '{words}'; white-space: nowrap; {box} }}\n"
        f"  @bottom-right {{ content: counter(page) ' / ' counter(pages); {box} }} }}\n"
    )
