(comment) @comment
[(opener) (setting) (voice) (joint)] @keyword
(role) @type
(mode) @type.builtin
(name) @label
(number) @constant.numeric
(text) @string
"|" @punctuation.delimiter
["(" ")"] @punctuation.bracket
(hold) @operator
(hole) @special
(rest) @constant.builtin
(pitch) @constant
(numeral) @function
