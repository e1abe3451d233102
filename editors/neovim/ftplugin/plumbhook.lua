if vim.b.did_ftplugin then
  return
end
vim.b.did_ftplugin = 1

vim.bo.commentstring = '# %s'
vim.bo.comments = ':#'
-- A hyphen belongs to the name it stands in: `rope-38-long-6` is one word.
vim.opt_local.iskeyword:append('-')

vim.b.undo_ftplugin = 'setlocal commentstring< comments< iskeyword<'
