"""Words for people: counts, lengths, names of rows and colours, stretches, guesses. One rule for each."""
