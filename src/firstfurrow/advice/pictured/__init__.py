"""What the pictures of a plan show, as numbers in working units: found in a profile, or worked out by the mechanics."""
