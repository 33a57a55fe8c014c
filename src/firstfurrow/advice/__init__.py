"""The advice: answers -> plan -> hookups -> demands -> requirements -> profile. Pure; runs the whole road each time."""
