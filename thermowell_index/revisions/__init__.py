"""One issue of an index against the issue before: rows matched, cells compared, decisions carried over or lapsed."""
