"""What a class gets: a handout for each participant, and one page for the educator."""
