;;; wythe-mode.el --- Wythe plans in Emacs  -*- lexical-binding: t; -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "27.1") (eglot "1.8"))
;; Keywords: languages

;;; Commentary:

;; Colors words, sets depth, and starts the language server by Eglot.  Put this
;; file into a folder of `load-path' and write (require 'wythe-mode).

;;; Code:

(require 'cl-lib)
(require 'prog-mode)
(require 'project)

(defgroup wythe nil
  "Wythe plans."
  :group 'languages)

(defcustom wythe-command '("wythe" "serve" "--stdio")
  "The command that serves plans."
  :type '(repeat string))

(defvar wythe-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?_ "w" table)
    (modify-syntax-entry ?/ ". 12" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?' "." table)
    table)
  "Syntax table of `wythe-mode'.")

(defconst wythe-mode--propertize
  (syntax-propertize-rules
   ;; A mark right after a digit is the inch and opens no text.
   ("[0-9]\\(\"\\)" (1 ".")))
  "What the syntax table alone cannot say.")

(defvar wythe-mode-font-lock-keywords
  `((,(concat "^\\s-*\\(?:pub\\s-+\\)?"
              (regexp-opt '("use" "let" "fn" "unit" "record" "enum" "product" "buildup" "joint" "phase" "site"
                            "foundation" "rule" "amend" "waiver" "prices" "rates" "log" "test")
                          'symbols)
              "\\s-+\\(\\_<[A-Za-z_][A-Za-z0-9_]*\\_>\\)?")
     (1 font-lock-keyword-face) (2 font-lock-function-name-face nil t))
    (,(regexp-opt '("coat" "drain" "fill" "lay" "hang" "set" "fasten" "cap" "tape" "seal" "lap" "remove") 'symbols)
     . font-lock-builtin-face)
    (,(regexp-opt '("pub" "during" "wall" "step" "opening" "piers" "pier" "pad" "beam" "for" "require" "otherwise"
                    "rate" "waste" "entry" "expect" "give" "each" "in" "where" "from" "to" "along" "over" "under"
                    "into" "with" "every" "by" "bead" "at" "on" "of" "as" "per" "runs" "between" "within" "no"
                    "finding" "x" "if" "then" "else" "and" "or" "not")
                  'symbols)
     . font-lock-keyword-face)
    (,(regexp-opt '("true" "false" "none") 'symbols) . font-lock-constant-face)
    ("\\_<[A-Z][A-Za-z0-9]*\\_>" . font-lock-type-face)
    ("^\\s-*\\([a-z_][a-z0-9_]*\\):" 1 font-lock-variable-name-face))
  "What is colored before the server answers.")

(defun wythe-indent-line ()
  "Set the line to the depth of the brackets around it."
  (interactive)
  (let* ((depth (save-excursion (beginning-of-line) (car (syntax-ppss))))
         (closes (save-excursion (back-to-indentation) (looking-at-p "[])}]")))
         (column (* 4 (max 0 (if closes (1- depth) depth))))
         (offset (- (current-column) (current-indentation))))
    (indent-line-to column)
    (when (> offset 0) (forward-char offset))))

;;;###autoload
(define-derived-mode wythe-mode prog-mode "Wythe"
  "Wythe plans."
  (setq-local comment-start "// ")
  (setq-local comment-end "")
  (setq-local font-lock-defaults '(wythe-mode-font-lock-keywords))
  (setq-local syntax-propertize-function wythe-mode--propertize)
  (setq-local indent-line-function #'wythe-indent-line)
  (setq-local tab-width 4)
  (setq-local indent-tabs-mode nil))

;; The plans of a repository belong together, with or without version control.
(defun wythe-project (folder)
  "The repository of plans around FOLDER."
  (let ((root (locate-dominating-file folder "wythe.toml")))
    (when root (cons 'wythe root))))

(cl-defmethod project-root ((project (head wythe)))
  "The folder of the plans of PROJECT."
  (cdr project))

(add-hook 'project-find-functions #'wythe-project)

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.wythe\\'" . wythe-mode))

;; The server by Eglot, and the drawing of what stands at the cursor.

(declare-function eglot-current-server "eglot")
(declare-function eglot-uri-to-path "eglot")
(declare-function eglot--uri-to-path "eglot")
(declare-function eglot--TextDocumentPositionParams "eglot")
(declare-function eglot--lsp-position-to-point "eglot")
(declare-function jsonrpc-request "jsonrpc")
(declare-function jsonrpc-notify "jsonrpc")

(defvar wythe--cursor-timer nil
  "What tells the server where the cursor is.")

(defun wythe--tell-cursor ()
  "Tell the server where the cursor is."
  (when (derived-mode-p 'wythe-mode)
    (let ((server (eglot-current-server)))
      (when server
        (jsonrpc-notify server :wythe/cursor (eglot--TextDocumentPositionParams))))))

(defun wythe-drawing ()
  "Show the drawing of what stands at the cursor in a browser.
The drawing follows the cursor, and a click on a layer leads back here."
  (interactive)
  (let ((server (or (eglot-current-server) (user-error "Wythe does not serve this buffer"))))
    (wythe--tell-cursor)
    (unless wythe--cursor-timer
      (setq wythe--cursor-timer (run-with-idle-timer 0.1 t #'wythe--tell-cursor)))
    (browse-url
     (jsonrpc-request server :workspace/executeCommand
                      '(:command "wythe.server.drawingPage" :arguments [(:open :json-false)])))))

(defun wythe--show-document (uri selection)
  "Go to SELECTION in the document at URI."
  (find-file (if (fboundp 'eglot-uri-to-path) (eglot-uri-to-path uri) (eglot--uri-to-path uri)))
  (when selection
    (goto-char (eglot--lsp-position-to-point (plist-get selection :start)))))

(with-eval-after-load 'eglot
  ;; A class of its own, for what Eglot does not do by itself in every version.
  (eval '(progn
           (defclass wythe-server (eglot-lsp-server) () :documentation "The server of plans.")
           (cl-defmethod eglot-client-capabilities :around ((_server wythe-server))
             (let* ((said (cl-call-next-method))
                    (window (copy-sequence (plist-get said :window))))
               (plist-put (copy-sequence said) :window (plist-put window :showDocument '(:support t)))))
           (cl-defmethod eglot-handle-request
             ((_server wythe-server) (_method (eql window/showDocument)) &key uri external selection &allow-other-keys)
             (if (eq external t) (browse-url uri) (wythe--show-document uri selection))
             '(:success t)))
        t)
  (add-to-list 'eglot-server-programs (cons 'wythe-mode (cons 'wythe-server wythe-command))))

(provide 'wythe-mode)
;;; wythe-mode.el ends here
