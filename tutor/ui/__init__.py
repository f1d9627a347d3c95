"""What the tutor and its window exchange: plain values of what is shown and of what a person did."""
