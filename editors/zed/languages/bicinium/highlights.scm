(comment) @comment
[(opener) (setting) (voice) (joint)] @keyword
(role) @type
(mode) @type.builtin
(name) @label
(number) @number
(text) @string
"|" @punctuation.delimiter
["(" ")"] @punctuation.bracket
(hold) @operator
(hole) @constant.macro
(rest) @constant.builtin
(pitch) @constant
(numeral) @function
