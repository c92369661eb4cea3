" Colours of sheets, where nothing better reads them.
" A row is all that follows its first barline; everything else is told by the first word.

if exists('b:current_syntax')
  finish
endif
syntax case ignore

syntax match biciniumOpener '^\s*\zs\(cantus\|exercise\)\>'
syntax match biciniumSetting '^\s*\zs\(use\|rulebook\|meter\|key\|species\|by\|points\|deadline\|allow\)\>'
syntax match biciniumVoice '^\s*\zs\(soprano\|mezzo\|alto\|tenor\|baritone\|bass\|line\|harmony\)\>'
syntax match biciniumRole '\(^\s*\a\+\s\+\)\@<=\(cantus\|counter\)\>'
syntax match biciniumWord '\<\(at\|to\|because\)\>'
syntax match biciniumMode '\<\(major\|minor\|ionian\|dorian\|phrygian\|lydian\|mixolydian\|aeolian\)\>'
syntax match biciniumNumber '\<\d\+\([/.]\d\+\)\?\>'
syntax match biciniumRest '\<rest\>' contained
syntax match biciniumBarline '|' contained
syntax match biciniumHold '-' contained
syntax match biciniumGroup '[()]' contained
syntax match biciniumHole '?' contained
syntax match biciniumNumeral '\v(^|[^0-9A-Za-z#b♯♭])@<=[b#♭♯]?[IViv]+[0-9/°o+ø]*' contained
syntax match biciniumPitch '\v\C[A-G](##|#|♯♯|♯|x|𝄪|bb|b|♭♭|♭|𝄫|♮)?\d' contained
syntax region biciniumBars matchgroup=biciniumBarline start='|' end='$' oneline contains=biciniumRest,biciniumBarline,biciniumHold,biciniumGroup,biciniumHole,biciniumNumeral,biciniumPitch,biciniumComment
syntax region biciniumText start='"' end='"' oneline
syntax match biciniumComment '//.*' contains=@Spell

highlight default link biciniumOpener Structure
highlight default link biciniumSetting Keyword
highlight default link biciniumVoice Keyword
highlight default link biciniumRole Type
highlight default link biciniumWord Keyword
highlight default link biciniumMode Type
highlight default link biciniumNumber Number
highlight default link biciniumRest Special
highlight default link biciniumBarline Delimiter
highlight default link biciniumHold Operator
highlight default link biciniumGroup Delimiter
highlight default link biciniumHole Todo
highlight default link biciniumNumeral Function
highlight default link biciniumPitch Constant
highlight default link biciniumText String
highlight default link biciniumComment Comment

let b:current_syntax = 'bicinium'
