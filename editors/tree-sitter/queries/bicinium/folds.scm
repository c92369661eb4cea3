[(cantus) (exercise)] @fold
