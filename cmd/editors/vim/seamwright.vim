" Seamwright for Vim 8.2 and later, with the ALE plugin (Debian: vim-ale, then
" `packadd! ale` in the vimrc). Put this file into ~/.vim/plugin/.

augroup seamwright
  autocmd!
  autocmd BufRead,BufNewFile *.seam setfiletype seam
  autocmd FileType seam setlocal commentstring=//\ %s shiftwidth=2 expandtab omnifunc=ale#completion#OmniFunc
  autocmd FileType seam call s:serve()
augroup end

function! s:project(buffer) abort
  let l:git = ale#path#FindNearestDirectory(a:buffer, '.git')
  if !empty(l:git)
    return fnamemodify(l:git, ':p:h:h')
  endif
  let l:mark = ale#path#FindNearestFile(a:buffer, 'seamwright.root')
  return empty(l:mark) ? expand('#' . a:buffer . ':p:h') : fnamemodify(l:mark, ':p:h')
endfunction

function! s:serve() abort
  if exists('s:served')
    return
  endif
  let s:served = 1
  call ale#linter#Define('seam', {
  \ 'name': 'seamwright',
  \ 'lsp': 'stdio',
  \ 'executable': 'seamwright',
  \ 'command': '%e lsp',
  \ 'project_root': function('s:project'),
  \})
endfunction
