# Sheets of two-voice counterpoint in Kakoune: what they are, how they look, and who serves them.

hook global BufCreate .*\.bicinium %{
    set-option buffer filetype bicinium
}

hook global BufSetOption filetype=bicinium %{
    set-option buffer comment_line '//'
}

hook -group bicinium-highlight global WinSetOption filetype=bicinium %{
    add-highlighter window/bicinium ref bicinium
    hook -once -always window WinSetOption filetype=.* %{ remove-highlighter window/bicinium }
}

hook -group lsp-filetype-bicinium global BufSetOption filetype=bicinium %{
    set-option buffer lsp_servers %{
        [bicinium]
        root_globs = [".git"]
        command = "bicinium"
        args = ["lsp"]
    }
}

add-highlighter shared/bicinium regions
add-highlighter shared/bicinium/words default-region group
add-highlighter shared/bicinium/comment region '//' '$' fill comment
add-highlighter shared/bicinium/text region '"' '"|$' fill string
add-highlighter shared/bicinium/bars region '\|' '(?=//)|$' group

add-highlighter shared/bicinium/words/ regex '(?i)^\h*(cantus|exercise)\b' 1:module
add-highlighter shared/bicinium/words/ regex '(?i)^\h*(use|rulebook|meter|key|species|by|points|deadline|allow)\b' 1:keyword
add-highlighter shared/bicinium/words/ regex '(?i)^\h*(soprano|mezzo|alto|tenor|baritone|bass|line|harmony)\b' 1:keyword
add-highlighter shared/bicinium/words/ regex '(?i)^\h*[a-z]+\h+(cantus|counter)\b' 1:type
add-highlighter shared/bicinium/words/ regex '(?i)\h(at|to|because)\b' 1:keyword
add-highlighter shared/bicinium/words/ regex '(?i)\h(major|minor|ionian|dorian|phrygian|lydian|mixolydian|aeolian)\b' 1:type
add-highlighter shared/bicinium/words/ regex '\h(\d+(?:[/.]\d+)?)\b' 1:value

add-highlighter shared/bicinium/bars/ regex '[A-G](?:##|#|♯♯|♯|x|𝄪|bb|b|♭♭|♭|𝄫|♮)?\d' 0:value
add-highlighter shared/bicinium/bars/ regex '\b[IViv]+[°øo+]?[0-9/]*' 0:function
add-highlighter shared/bicinium/bars/ regex '(?i)\brest\b' 0:builtin
add-highlighter shared/bicinium/bars/ regex '\?' 0:attribute
add-highlighter shared/bicinium/bars/ regex '[|()-]' 0:operator
