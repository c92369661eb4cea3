autocmd BufRead,BufNewFile *.bicinium setfiletype bicinium
