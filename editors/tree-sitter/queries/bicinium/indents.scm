[(cantus) (exercise)] @indent.begin
[(cantus_line) (exercise_line)] @indent.branch
