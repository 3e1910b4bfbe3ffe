;;; seamwright.el --- Quilt block patterns -*- lexical-binding: t -*-

;; Put this file where Emacs loads from and write into your init file:
;;     (require 'seamwright)
;; Emacs 29 has eglot built in; before that it is a package (Debian: elpa-eglot).

(require 'eglot)

(defconst seamwright-words
  '("accept" "along" "and" "as" "at" "block" "by" "check" "cm" "colorway" "deg"
    "else" "fabric" "false" "finished" "for" "from" "if" "in" "join" "let" "line"
    "mm" "not" "of" "or" "outline" "pad" "partial" "pattern" "piece" "place"
    "quilt" "reversed" "scrappy" "section" "then" "true" "turn" "unit" "use")
  "The words of the language.")

(defvar seamwright-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?/ ". 12" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?_ "w" table)
    (modify-syntax-entry ?\" "\"" table)
    table))

;;;###autoload
(define-derived-mode seamwright-mode prog-mode "Seam"
  "Major mode for quilt block patterns."
  (setq-local comment-start "// ")
  (setq-local indent-tabs-mode nil)
  (setq-local font-lock-defaults
              `(((,(regexp-opt seamwright-words 'words) . font-lock-keyword-face)
                 ("#[0-9a-fA-F]\\{6\\}\\>" . font-lock-constant-face)))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.seam\\'" . seamwright-mode))
(add-to-list 'eglot-server-programs '(seamwright-mode . ("seamwright" "lsp")))
(add-hook 'seamwright-mode-hook #'eglot-ensure)

(provide 'seamwright)
;;; seamwright.el ends here
