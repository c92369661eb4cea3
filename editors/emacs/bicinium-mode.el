;;; bicinium-mode.el --- Two-voice counterpoint in plain text -*- lexical-binding: t -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "27.1"))
;; Keywords: languages, music

;;; Commentary:

;; Colours, comments, and a way through sheets (`imenu').  The server does the rest: it is made
;; known to `eglot' and to `lsp-mode', whichever of them is there.

;;; Code:

(defgroup bicinium nil
  "Two-voice counterpoint in plain text."
  :group 'languages)

(defcustom bicinium-command '("bicinium" "lsp")
  "The program that serves sheets, and its arguments."
  :type '(repeat string))

(defface bicinium-hole-face '((t :inherit warning))
  "How a note looks that is not chosen yet.")

(defface bicinium-pitch-face '((t :inherit font-lock-constant-face))
  "How a note looks.")

(defconst bicinium--rows
  '("soprano" "mezzo" "alto" "tenor" "baritone" "bass" "line" "harmony"))

(defconst bicinium--settings '("use" "rulebook" "meter" "key" "species" "by" "points" "deadline" "allow"))

(defconst bicinium--modes
  '("major" "minor" "ionian" "dorian" "phrygian" "lydian" "mixolydian" "aeolian"))

(defconst bicinium--accidental "\\(?:##\\|#\\|♯♯\\|♯\\|x\\|𝄪\\|bb\\|b\\|♭♭\\|♭\\|𝄫\\|♮\\)?")

(defun bicinium--first-word (words)
  "Match one of WORDS at the beginning of a line."
  (concat "^[ \t]*" (regexp-opt words t) "\\_>"))

(defun bicinium--match-in-bars (regexp limit)
  "Find REGEXP before LIMIT behind the first barline of a line, in upper and lower case as written."
  (let ((case-fold-search nil) found)
    (while (and (not found) (re-search-forward regexp limit t))
      (setq found (save-excursion
                    (save-match-data
                      (goto-char (match-beginning 0))
                      (search-backward "|" (line-beginning-position) t)))))
    found))

(defun bicinium--in-bars (regexp)
  "A matcher for REGEXP in bars."
  (lambda (limit) (bicinium--match-in-bars regexp limit)))

(defconst bicinium-font-lock-keywords
  `((,(bicinium--first-word '("cantus" "exercise")) 1 font-lock-function-name-face)
    (,(bicinium--first-word bicinium--rows) 1 font-lock-keyword-face)
    (,(bicinium--first-word bicinium--settings) 1 font-lock-keyword-face)
    ("^[ \t]*[[:alpha:]]+[ \t]+\\(cantus\\|counter\\)\\_>" 1 font-lock-type-face)
    (,(concat "^[ \t]*key[ \t]+\\([A-G]" bicinium--accidental "\\)[ \t]+"
              (regexp-opt bicinium--modes t))
     (1 'bicinium-pitch-face) (2 font-lock-type-face))
    ("\\_<\\(?:at\\|to\\|because\\)\\_>" 0 font-lock-keyword-face)
    (,(bicinium--in-bars (concat "[A-G]" bicinium--accidental "[0-9]")) 0 'bicinium-pitch-face)
    (,(bicinium--in-bars "\\_<\\(?:rest\\|REST\\|Rest\\)\\_>") 0 font-lock-builtin-face)
    (,(bicinium--in-bars "[?]") 0 'bicinium-hole-face)
    (,(bicinium--in-bars "[b#♭♯]?[IViv]+\\(?:[/0-9°oø+]+\\)?") 0 font-lock-function-name-face)
    (,(bicinium--in-bars "-") 0 font-lock-builtin-face)
    ("[|()]" 0 font-lock-comment-delimiter-face))
  "The colours of a sheet; what stands in bars has them only there.")

(defvar bicinium-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?/ ". 12" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\r ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?- "_" table)
    (modify-syntax-entry ?# "_" table)
    table)
  "Comments run from two strokes to the end of the line, text stands in quotation marks.")

;;;###autoload
(define-derived-mode bicinium-mode prog-mode "Bicinium"
  "Major mode for sheets of two-voice counterpoint."
  (setq-local comment-start "// "
              comment-start-skip "//+[ \t]*"
              indent-tabs-mode nil
              font-lock-defaults '(bicinium-font-lock-keywords nil t)
              imenu-case-fold-search t
              imenu-generic-expression
              '(("Exercise" "^[ \t]*\\(exercise.*\\)$" 1)
                ("Cantus" "^[ \t]*cantus[ \t]+\\([^ \t\n]+\\)" 1))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.bicinium\\'" . bicinium-mode))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs (cons 'bicinium-mode bicinium-command)))

(declare-function lsp-register-client "lsp-mode")
(declare-function make-lsp-client "lsp-mode")
(declare-function lsp-stdio-connection "lsp-mode")
(declare-function lsp-activate-on "lsp-mode")
(defvar lsp-language-id-configuration)
(with-eval-after-load 'lsp-mode
  (add-to-list 'lsp-language-id-configuration '(bicinium-mode . "bicinium"))
  (lsp-register-client
   (make-lsp-client :new-connection (lsp-stdio-connection (lambda () bicinium-command))
                    :activation-fn (lsp-activate-on "bicinium")
                    :server-id 'bicinium)))

(provide 'bicinium-mode)
;;; bicinium-mode.el ends here
