" The server, for ALE, which counts columns in bytes and is not asked otherwise.

call ale#Set('bicinium_executable', 'bicinium')

function! ale_linters#bicinium#bicinium#root(buffer) abort
  return fnamemodify(bufname(a:buffer), ':p:h')
endfunction

call ale#linter#Define('bicinium', {
\ 'name': 'bicinium',
\ 'lsp': 'stdio',
\ 'executable': {buffer -> ale#Var(buffer, 'bicinium_executable')},
\ 'command': '%e lsp',
\ 'language': 'bicinium',
\ 'initialization_options': {'columns': 'bytes'},
\ 'project_root': function('ale_linters#bicinium#bicinium#root'),
\})
