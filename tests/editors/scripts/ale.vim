" Goes through the sheet with ALE's own commands and tells what is seen.
let s:story = {'more': {}}

function! s:Wait(what, Condition) abort
  let l:left = 1200
  while !a:Condition()
    let l:left -= 1
    if l:left == 0
      throw 'waited in vain for ' . a:what
    endif
    sleep 50m
  endwhile
endfunction

function! s:Text() abort
  return join(getline(1, '$'), "\n") . "\n"
endfunction

function! s:Found() abort
  return get(get(g:ale_buffer_info, bufnr(''), {}), 'loclist', [])
endfunction

function! s:Shown() abort
  return map(copy(s:Found()), {_, it -> {'line': it.lnum - 1, 'message': substitute(get(it, 'detail', it.text), '^\[bicinium\] ', '', '')}})
endfunction

function! s:Finding() abort
  return filter(copy(s:Found()), {_, it -> it.text =~# 'Fifths in a row'})
endfunction

function! s:GoToFinding() abort
  let l:at = s:Finding()[0]
  call cursor(l:at.lnum, 1)
  call search('\%' . l:at.lnum . 'l.*|\s*\zsC3')
  let l:before = strpart(getline('.'), 0, col('.') - 1)
  let s:story.hovered = [line('.') - 1, strchars(l:before)]
endfunction

function! s:Hover() abort
  ALEHover
  call s:Wait('the hover', {-> s:Preview() isnot 0})
  let s:story.hover = join(getbufline(s:Preview(), 1, '$'), "\n")
  pclose
endfunction

" The buffer of the preview window, 0 if there is none.
function! s:Preview() abort
  for l:window in range(1, winnr('$'))
    if getwinvar(l:window, '&previewwindow')
      return winbufnr(l:window)
    endif
  endfor
  return 0
endfunction

function! s:Mend() abort
  let l:before = s:Text()
  ALECodeAction
  call feedkeys("1\<CR>", 't')
  call s:Wait('the fix', {-> s:Text() isnot# l:before})
  let s:story.fixed = s:Text()
endfunction

function! s:LayOut() abort
  let l:before = s:Text()
  ALEFix
  call s:Wait('the layout', {-> s:Text() isnot# l:before})
  let s:story.formatted = s:Text()
endfunction

function! s:ColourAt(pattern) abort
  call cursor(1, 1)
  let [l:line, l:column] = searchpos(a:pattern, 'cn')
  return synIDattr(synIDtrans(synID(l:line, l:column, 1)), 'name')
endfunction

function! s:Definition() abort
  call cursor(1, 1)
  call search('soprano cantus mill-song', 'e')
  ALEGoToDefinition
  call s:Wait('the definition', {-> getline('.') =~# '^cantus'})
  let s:story.more.definitions = getline('.')
endfunction

function! s:GoThrough() abort
  let s:story.editor = 'Vim ' . v:version / 100 . '.' . v:version % 100
  let s:story.more.colours = {'keyword': s:ColourAt('soprano'), 'pitch': s:ColourAt('F4'), 'comment': s:ColourAt('Windmill')}
  ALELint
  call s:Wait('the findings', {-> !empty(s:Finding())})
  let s:story.findings = s:Shown()
  call s:GoToFinding()
  call s:Hover()
  call s:Mend()
  call s:LayOut()
  call s:Wait('the end of the finding', {-> empty(s:Finding()) && !empty(s:Found())})
  sleep 500m
  let s:story.left = s:Shown()
  call s:Definition()
endfunction

let s:code = ''
try
  call s:GoThrough()
catch
  let s:story.why = v:exception . ' at ' . v:throwpoint
  let s:code = 'cquit'
endtry
call writefile([json_encode(s:story)], $BICINIUM_STORY)
call ale#lsp#StopAll()
execute s:code ==# '' ? 'qall!' : s:code
