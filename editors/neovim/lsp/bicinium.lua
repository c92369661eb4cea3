-- The server: what Neovim 0.11 reads by itself, and the older way takes from here.
return {
  cmd = { "bicinium", "lsp" },
  filetypes = { "bicinium" },
  root_markers = { ".git" },
}
