;;; with-eglot.el --- Goes through the sheet with Emacs and eglot -*- lexical-binding: t -*-
(require 'tale)
(require 'eglot)
(setq eglot-sync-connect 30 eglot-autoshutdown t eglot-send-changes-idle-time 0.05
      eglot-confirm-server-initiated-edits nil)

(defun tale-hover ()
  "What eldoc is given to show at point."
  (let (shown)
    (eglot-hover-eldoc-function (lambda (text &rest _) (setq shown text)))
    (substring-no-properties (tale-wait "the hover" (lambda () shown)))))

(defun tale-choices ()
  (let ((found (run-hook-with-args-until-success 'completion-at-point-functions)))
    (vconcat (mapcar #'substring-no-properties (all-completions "" (nth 2 found))))))

(tale-telling
 (tale-put 'editor (concat "Emacs " emacs-version))
 (find-file (getenv "BICINIUM_SHEET"))
 (eglot-ensure)
 (run-hooks 'post-command-hook)
 (tale-wait "the server" #'eglot-current-server)
 (eglot--signal-textDocument/didOpen)
 (flymake-start)
 (tale-wait "the findings" #'tale-finding)
 (tale-put 'findings (tale-shown))
 (tale-go-to-finding)
 (tale-put 'hover (tale-hover))
 (let ((before (tale-buffer)))
   (tale-taking-the-first #'eglot-code-actions)
   (tale-wait "the fix" (lambda () (not (equal before (tale-buffer))))))
 (tale-put 'fixed (tale-buffer))
 (eglot-format-buffer)
 (tale-put 'formatted (tale-buffer))
 (eglot--signal-textDocument/didChange)
 (tale-wait "the end of the finding" (lambda () (not (tale-finding))))
 (let ((end (+ (float-time) 0.5)))
   (tale-wait "the last answer" (lambda () (> (float-time) end))))
 (tale-put 'left (tale-shown))
 (tale-go-to-hole)
 (tale-put 'more `((completion . ,(tale-choices)) (colours . ,(tale-colours))))
 (eglot-shutdown (eglot-current-server)))
;;; with-eglot.el ends here
