"""From the dimensions of well, extension and sensor to the probe length that fits, and the room around it."""
