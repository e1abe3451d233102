" Only what the text shows by itself: which words and units mean something, the server knows.

if exists('b:current_syntax')
  finish
endif

" A word in column 1 opens an entry.
syntax match plumbhookEntry /^\a[^[:blank:]#"]*/
" A number opens its token; digits inside a name (`rope-38`) are the name's.
syntax match plumbhookNumber /\%([^[:blank:](,|]\)\@1<![-+]\?\d\%([-0-9./']*\d\)\?/
" Behind a digit the mark is an inch mark; a text ends in its line.
syntax match plumbhookText /\d\@1<!"[^"]*"\?/
" Anywhere outside a text, also glued to a word.
syntax match plumbhookComment /#.*/ contains=@Spell

highlight default link plumbhookEntry Keyword
highlight default link plumbhookNumber Number
highlight default link plumbhookText String
highlight default link plumbhookComment Comment

let b:current_syntax = 'plumbhook'
