-- Asks Neovim to show the score of the sheet, and leaves the address where the browser finds it.
local address = os.getenv("BICINIUM_ADDRESS")

vim.ui.open = function(uri)
  vim.fn.writefile({ uri }, address)
  return { wait = function() return { code = 0 } end }
end

vim.api.nvim_create_autocmd("LspAttach", {
  callback = function()
    vim.schedule(function()
      vim.fn.search("soprano")
      vim.lsp.buf.code_action({
        apply = true,
        filter = function(action)
          return action.command == "bicinium.showScore"
        end,
      })
    end)
  end,
})
