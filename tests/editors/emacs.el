;;; emacs.el --- What a person does in Emacs, done by a script  -*- lexical-binding: t; -*-

;; Before Emacs 29, Eglot is a package of the distribution.
(dolist (root '("/usr/share/emacs/site-lisp/elpa" "/usr/share/emacs/site-lisp/elpa-src"))
  (when (file-directory-p root)
    (dolist (package (directory-files root t "\\`[a-z]"))
      (add-to-list 'load-path package))))

(require 'seq)
(require 'subr-x)

(defun wythe-test-browse (port method path key)
  "What is answered on PORT to METHOD and PATH, asked with KEY.
The editor answers the server meanwhile."
  (let* ((answer "")
         (browser (make-network-process
                   :name "browser" :host "127.0.0.1" :service port :coding 'utf-8
                   :filter (lambda (_ part) (setq answer (concat answer part)))
                   :sentinel #'ignore)))
    (process-send-string
     browser (concat method " " path " HTTP/1.1\r\nHost: 127.0.0.1:" (number-to-string port) "\r\nConnection: close\r\n"
                     (if key (concat "Authorization: Bearer " key "\r\n") "") "\r\n"))
    (while (process-live-p browser) (accept-process-output nil 0.05))
    answer))

(setq wythe-command (list (getenv "WYTHE_COMMAND") "serve" "--stdio"))
(load (getenv "WYTHE_MODE"))
(setq make-backup-files nil)
(defconst plans default-directory "The folder of the plans.")

(find-file (expand-file-name "houses/unit_4.wythe" plans))
(unless (eq major-mode 'wythe-mode) (error "The mode is not set"))
(goto-char (point-min))
(search-forward "wall south")
(wythe-indent-line)
(princ (format "depth: %d\n" (current-indentation)))
(set-buffer-modified-p nil)

(if (not (require 'eglot nil t))
    (princ "no eglot\n")
  (setq eglot-sync-connect 60)
  (find-file (expand-file-name "houses/probe.wythe" plans))
  (call-interactively #'eglot)
  (flymake-mode 1)
  (princ (format "root: %s\n" (project-root (project-current))))
  (let ((tries 0))
    (while (and (null (flymake-diagnostics)) (< tries 300))
      (flymake-start)
      (accept-process-output nil 0.1)
      (setq tries (1+ tries))))
  (dolist (d (flymake-diagnostics))
    (princ (format "finding: %s\n" (car (split-string (flymake-diagnostic-text d) "\n")))))
  (find-file (expand-file-name "houses/unit_4.wythe" plans))
  (eglot--maybe-activate-editing-mode)
  (goto-char (point-min))
  (search-forward "wall so")
  (let* ((server (eglot-current-server))
         (answer (jsonrpc-request server :textDocument/hover (eglot--TextDocumentPositionParams))))
    (princ (format "hover: %s\n" (plist-get (plist-get answer :contents) :value))))

  ;; The fix that is offered, made and saved.
  (find-file (expand-file-name "houses/probe.wythe" plans))
  (let* ((server (eglot-current-server))
         (params (list :textDocument (eglot--TextDocumentIdentifier)
                       :range '(:start (:line 0 :character 0) :end (:line 0 :character 12))
                       :context '(:diagnostics [])))
         (actions (jsonrpc-request server :textDocument/codeAction params))
         (fix (seq-find (lambda (action) (equal (plist-get action :kind) "quickfix")) actions)))
    (eglot--apply-workspace-edit (plist-get fix :edit))
    (save-buffer))

  ;; Completion of a layer half typed, by the editor's own function.
  (find-file (expand-file-name "library/closed_crawl.wythe" plans))
  (eglot--maybe-activate-editing-mode)
  (goto-char (point-min))
  (search-forward "set board from")
  (beginning-of-line)
  (insert "            hang wa\n")
  (backward-char)
  (eglot--signal-textDocument/didChange)
  (let* ((found (eglot-completion-at-point))
         (all (all-completions "wa" (nth 2 found))))
    (princ (format "completion: %s\n" (mapcar #'substring-no-properties all))))
  (revert-buffer t t t)

  ;; Rename across files, and save them.
  (find-file (expand-file-name "houses/unit_4.wythe" plans))
  (goto-char (point-min))
  (search-forward "build: stem_wa")
  (cl-letf (((symbol-function 'y-or-n-p) #'always)) ; it asks before it edits files that are not open
    (eglot-rename "lined_wall"))
  (save-some-buffers t)

  ;; The drawing as a page, and the way back from it.
  (find-file (expand-file-name "library/closed_crawl.wythe" plans))
  (goto-char (point-min))
  (search-forward "set board")
  (let (address)
    (cl-letf (((symbol-function 'browse-url) (lambda (told &rest _) (setq address told))))
      (wythe-drawing))
    (string-match "\\`http://127\\.0\\.0\\.1:\\([0-9]+\\)/\\(\\?token=[0-9a-f]+\\)\\'" address)
    (let* ((port (string-to-number (match-string 1 address)))
           (page (wythe-test-browse port "GET" (concat "/" (match-string 2 address)) nil))
           (key (and (string-match "Bearer \\([0-9a-f]+\\)" page) (match-string 1 page)))
           (drawing (wythe-test-browse port "GET" "/drawing?after=0" key))
           (marked (and (string-match "\"marked\":\"\\([0-9:-]+\\)\"" drawing) (match-string 1 drawing))))
      (princ (format "drawn: %s\n" (and (string-match-p "<svg" drawing) (substring drawing 0 12))))
      (goto-char (point-min))
      (princ (format "led: %s\n" (wythe-test-browse port "POST" (concat "/go?origin=" marked) key)))
      (princ (format "line: %s\n" (string-trim (thing-at-point 'line t)))))))
;;; emacs.el ends here
