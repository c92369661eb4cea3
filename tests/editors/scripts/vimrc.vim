" A Vim with ALE that has been told of bicinium as its page says.
set nocompatible encoding=utf-8 noswapfile hidden nomore
let g:ale_linters_explicit = 1
let g:ale_linters = {'bicinium': ['bicinium']}
let g:ale_fixers = {'bicinium': ['bicinium']}
let g:ale_hover_to_preview = 1
let &runtimepath = $BICINIUM_EDITORS . '/vim,' . &runtimepath
packadd! ale
filetype plugin on
syntax on
