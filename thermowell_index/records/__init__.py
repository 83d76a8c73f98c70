"""From cells to records: which rows are sensors in wells, how each is held and extended, what joins to what."""
