" The layout of sheets, for ALE: ALE does not ask servers for it.

call ale#Set('bicinium_executable', 'bicinium')

function! ale#fixers#bicinium#Fix(buffer) abort
  return {'command': ale#Escape(ale#Var(a:buffer, 'bicinium_executable')) . ' format -'}
endfunction
