vim.filetype.add({ extension = { pick = 'plumbhook' } })
