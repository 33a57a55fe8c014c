"""The physics and the field methods: pure functions in working units, each with its source and a worked number.

Every function is declared with `firstfurrow.reasoning.formula`: the text that is printed, the unit and digits of the
result, and which way each input moves it. Angles are in degrees, shares and slopes in per cent, masses in kg, forces in
kN, power in kW, speeds in km/h, lengths in m. Nothing here knows the book, an answer or a tractor.
"""

STANDARD_GRAVITY = 9.80665  # m/s2, exact by definition (CGPM 1901); written out in the formula texts
