;;; with-lsp-mode.el --- Goes through the sheet with Emacs and lsp-mode -*- lexical-binding: t -*-
(require 'tale)
(require 'lsp-mode)
(require 'lsp-diagnostics)
(require 'lsp-completion)
(require 'lsp-lens)
(require 'lsp-semantic-tokens)
(setq lsp-semantic-tokens-enable t lsp-semantic-tokens-apply-modifiers t lsp-enable-imenu t
      lsp-auto-guess-root t lsp-diagnostics-provider :flymake lsp-idle-delay 0.05
      lsp-enable-suggest-server-download nil lsp-restart 'ignore
      lsp-session-file (expand-file-name "session" (getenv "HOME")))

(defun tale-hover ()
  (lsp--render-on-hover-content
   (lsp:hover-contents (lsp-request "textDocument/hover" (lsp--text-document-position-params))) t))

(defun tale-choices ()
  (let ((found (lsp-completion-at-point)))
    (vconcat (mapcar #'substring-no-properties (all-completions "" (nth 2 found))))))

(defun tale-states ()
  "What stands above the exercises."
  (lsp-lens-mode 1)
  (lsp-lens-refresh t)
  (let ((shown (lambda ()
                 (mapcan (lambda (it)
                           (when (overlay-get it 'lsp-lens)
                             (list (string-trim (substring-no-properties (overlay-get it 'lsp-original))))))
                         (overlays-in (point-min) (point-max))))))
    (vconcat (mapcan (lambda (it) (split-string it "|" t " +")) (tale-wait "the states" shown)))))

(defun tale-look (text)
  (goto-char (point-min))
  (search-forward text)
  (format "%s" (get-text-property (1- (point)) 'face)))

(defun tale-tokens ()
  "How a given note looks and how a written one; in a batch nothing is asked when Emacs is idle."
  (lsp--semantic-tokens-request nil t)
  (let (apart)
    (tale-wait "the tokens"
               (lambda ()
                 (font-lock-fontify-region (point-min) (point-max))
                 (setq apart `((given . ,(tale-look "mill-song | F4")) (written . ,(tale-look "rest F3"))))
                 (not (equal (cdar apart) (cdadr apart)))))
    apart))

(tale-telling
 (tale-put 'editor (concat "Emacs " emacs-version))
 (find-file (getenv "BICINIUM_SHEET"))
 (defvar tale-seen-colours (tale-colours) "Before the server has a say in them.")
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
 (tale-put 'more `((completion . ,(tale-choices))
                   (colours . ,tale-seen-colours)
                   (states . ,(tale-states))
                   (tokens . ,(tale-tokens))
                   (outline . ,(tale-outline))
                   (definitions . ,(tale-definition #'lsp-find-definition))))
 (lsp-workspace-shutdown (car (lsp-workspaces))))
;;; with-lsp-mode.el ends here
