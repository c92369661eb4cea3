;;; with-lsp-mode.el --- Goes through the sheet with Emacs and lsp-mode -*- lexical-binding: t -*-
(require 'tale)
(require 'lsp-mode)
(require 'lsp-diagnostics)
(require 'lsp-completion)
(setq lsp-auto-guess-root t lsp-diagnostics-provider :flymake lsp-idle-delay 0.05
      lsp-enable-suggest-server-download nil lsp-restart 'ignore
      lsp-session-file (expand-file-name "session" (getenv "HOME")))

(defun tale-hover ()
  (lsp--render-on-hover-content
   (lsp:hover-contents (lsp-request "textDocument/hover" (lsp--text-document-position-params))) t))

(defun tale-choices ()
  (let ((found (lsp-completion-at-point)))
    (vconcat (mapcar #'substring-no-properties (all-completions "" (nth 2 found))))))

(tale-telling
 (tale-put 'editor (concat "Emacs " emacs-version))
 (find-file (getenv "BICINIUM_SHEET"))
 (lsp-workspace-folders-add (file-name-directory (getenv "BICINIUM_SHEET")))
 (lsp)
 (tale-wait "the findings" #'tale-finding)
 (tale-put 'findings (tale-shown))
 (tale-go-to-finding)
 (tale-put 'hover (substring-no-properties (tale-hover)))
 (let ((before (tale-buffer)))
   (tale-taking-the-first #'lsp-execute-code-action)
   (tale-wait "the fix" (lambda () (not (equal before (tale-buffer))))))
 (tale-put 'fixed (tale-buffer))
 (lsp-format-buffer)
 (tale-put 'formatted (tale-buffer))
 (tale-wait "the end of the finding" (lambda () (not (tale-finding))))
 (let ((end (+ (float-time) 0.5)))
   (tale-wait "the last answer" (lambda () (> (float-time) end))))
 (tale-put 'left (tale-shown))
 (tale-go-to-hole)
 (tale-put 'more `((completion . ,(tale-choices)) (colours . ,(tale-colours))))
 (lsp-workspace-shutdown (car (lsp-workspaces))))
;;; with-lsp-mode.el ends here
