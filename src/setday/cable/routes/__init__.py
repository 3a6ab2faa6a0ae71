"""The way of every run through the framing: holes, plates, lengths, words for the crew."""
