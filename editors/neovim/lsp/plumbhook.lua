-- Read by vim.lsp.enable('plumbhook'), Neovim 0.11 and later.

---@type vim.lsp.Config
return {
  cmd = { 'plumbhook', 'lsp' },
  filetypes = { 'plumbhook' },
  root_markers = { 'plumbhook.toml' },
}
