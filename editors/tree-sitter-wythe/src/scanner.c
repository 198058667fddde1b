// Line ends: which close a statement. The words that go on with the line before stand here as in the compiler's
// table; a test compares the two.

#include "tree_sitter/parser.h"

#include <string.h>

enum Token { LINE_END, NEVER };

static const char *const CONTINUES[] = {
    "and", "or", "where", "from", "to", "along", "over", "under", "into", "with",
    "every", "by", "bead", "at", "as", "per", "then", "else", "within",
};

void *tree_sitter_wythe_external_scanner_create(void) { return NULL; }
void tree_sitter_wythe_external_scanner_destroy(void *payload) { (void)payload; }
unsigned tree_sitter_wythe_external_scanner_serialize(void *payload, char *buffer) {
    (void)payload;
    (void)buffer;
    return 0;
}
void tree_sitter_wythe_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {
    (void)payload;
    (void)buffer;
    (void)length;
}

static bool is_name(int32_t c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

// Whether the word at hand goes on with the line before.
static bool continues(TSLexer *lexer) {
    char word[8];
    unsigned length = 0;
    while (is_name(lexer->lookahead)) {
        if (length == sizeof word - 1) {
            return false;
        }
        word[length++] = (char)lexer->lookahead;
        lexer->advance(lexer, false);
    }
    word[length] = 0;
    for (unsigned i = 0; i < sizeof CONTINUES / sizeof *CONTINUES; i++) {
        if (strcmp(word, CONTINUES[i]) == 0) {
            return true;
        }
    }
    return false;
}

bool tree_sitter_wythe_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) {
    (void)payload;
    if (!valid[LINE_END] || valid[NEVER]) {
        return false;
    }
    while (lexer->lookahead == ' ' || lexer->lookahead == '\t' || lexer->lookahead == '\r') {
        lexer->advance(lexer, true);
    }
    // A remark at the end of a line is none of the line.
    if (lexer->lookahead != '\n') {
        return false;
    }
    lexer->advance(lexer, true);
    lexer->mark_end(lexer);
    lexer->result_symbol = LINE_END;
    bool blank = true;
    for (;;) {
        while (lexer->lookahead == ' ' || lexer->lookahead == '\t' || lexer->lookahead == '\r') {
            lexer->advance(lexer, false);
        }
        if (lexer->lookahead == '\n') {
            // An empty line always ends a statement.
            if (blank) {
                return true;
            }
            blank = true;
            lexer->advance(lexer, false);
        } else if (lexer->lookahead == '/') {
            lexer->advance(lexer, false);
            if (lexer->lookahead != '/') {
                return true;
            }
            while (lexer->lookahead != '\n' && !lexer->eof(lexer)) {
                lexer->advance(lexer, false);
            }
            blank = false;
        } else {
            break;
        }
    }
    return !continues(lexer);
}
