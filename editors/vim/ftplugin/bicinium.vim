" How sheets are edited: comments, completion at a name with hyphens.

if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal commentstring=//\ %s comments=:// iskeyword+=-,#
setlocal expandtab shiftwidth=2 softtabstop=2 autoindent
let b:undo_ftplugin = 'setlocal commentstring< comments< iskeyword< expandtab< shiftwidth< softtabstop< autoindent<'
