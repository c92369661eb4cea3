;;; tale.el --- What the scripts for Emacs share -*- lexical-binding: t -*-
(require 'json)
(require 'cl-lib)
(require 'flymake)
(setq make-backup-files nil auto-save-default nil create-lockfiles nil
      flymake-no-changes-timeout 0.1)

(defvar tale nil "What was seen, as it will be told.")

(defun tale-put (key value) (push (cons key value) tale))

(defun tale-wait (what condition)
  "Let Emacs work until CONDITION holds; WHAT says what it is."
  (let ((end (+ (float-time) 60)) met)
    (while (not (setq met (funcall condition)))
      (when (> (float-time) end) (error "Waited in vain for %s" what))
      (accept-process-output nil 0.05)
      (sit-for 0.01))
    met))

(defun tale-shown ()
  "The findings as Flymake has them."
  (vconcat (mapcar (lambda (it)
                     `((line . ,(1- (line-number-at-pos (flymake-diagnostic-beg it))))
                       (message . ,(tale-message it))))
                   (flymake-diagnostics))))

(defun tale-message (it)
  "What IT says, without the name of the server and the rule that Emacs puts before it."
  (replace-regexp-in-string "\\` *bicinium *\\[[a-z-]+\\]: *" "" (flymake-diagnostic-text it)))

(defun tale-finding ()
  "The finding that is mended."
  (cl-find-if (lambda (it) (string-match-p "Fifths in a row" (flymake-diagnostic-text it)))
              (flymake-diagnostics)))

(defun tale-buffer () (buffer-substring-no-properties (point-min) (point-max)))

(defun tale-go-to-finding ()
  (goto-char (flymake-diagnostic-beg (tale-finding)))
  (tale-put 'hovered (vector (1- (line-number-at-pos)) (- (point) (line-beginning-position)))))

(defun tale-go-to-hole ()
  (goto-char (point-min))
  (search-forward "?  |")
  (backward-char 3))

(defun tale-face-at (text)
  (save-excursion
    (goto-char (point-min))
    (search-forward text)
    (let ((face (get-text-property (match-beginning 0) 'face)))
      (format "%s" (if (consp face) (car (last face)) face)))))

(defun tale-colours ()
  (font-lock-ensure)
  `((keyword . ,(tale-face-at "soprano"))
    (pitch . ,(tale-face-at "F4"))
    (comment . ,(tale-face-at "Windmill"))))

(defun tale-names (index)
  "All names in INDEX, which is one of imenu's."
  (mapcan (lambda (it)
            (cons (substring-no-properties (car it))
                  (when (imenu--subalist-p it) (tale-names (cdr it)))))
          index))

(defun tale-outline ()
  "What imenu offers."
  (require 'imenu)
  (vconcat (tale-names (funcall imenu-create-index-function))))

(defun tale-definition (command)
  "The line to which COMMAND leads from a cantus."
  (goto-char (point-min))
  (search-forward "soprano cantus mill-song")
  (backward-char 2)
  (call-interactively command)
  (tale-wait "the definition" (lambda () (looking-at-p "mill-song$")))
  (buffer-substring-no-properties (line-beginning-position) (line-end-position)))

(defun tale-taking-the-first (command)
  "Call COMMAND, and answer what it asks by the first of the choices."
  (cl-letf ((last-nonmenu-event ?x)
            ((symbol-function 'completing-read)
             (lambda (_ choices &rest _) (car (all-completions "" choices)))))
    (call-interactively command)))

(defun tale-end (code)
  (with-temp-file (getenv "BICINIUM_STORY") (insert (json-encode tale)))
  (set-buffer-modified-p nil)
  (kill-emacs code))

(defmacro tale-telling (&rest steps)
  "Take STEPS and tell what was seen, whatever happens."
  `(condition-case why
       (progn ,@steps (tale-end 0))
     (error (tale-put 'why (format "%S" why)) (tale-end 1))))

(provide 'tale)
;;; tale.el ends here
