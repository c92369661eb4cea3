" Makes `bicinium` known among the fixers of ALE.

if !has('nvim') && !exists('g:loaded_bicinium')
  let g:loaded_bicinium = 1
  augroup bicinium
    autocmd!
    autocmd FileType bicinium silent! call ale#fix#registry#Add('bicinium', 'ale#fixers#bicinium#Fix', ['bicinium'], 'Lay out sheets.')
  augroup END
endif
