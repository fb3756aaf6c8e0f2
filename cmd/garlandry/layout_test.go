package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Limits: lines in a file, lines in a function, characters in a line.
const (
	mostFileLines      = 500
	mostFunctionLines  = 60
	mostLineCharacters = 120
)

// TestFilesFunctionsAndLinesStaySmall checks every source file except generated ones.
func TestFilesFunctionsAndLinesStaySmall(t *testing.T) {
	read := 0
	err := filepath.WalkDir("../..", func(path string, entry os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := entry.Name()
		if entry.IsDir() && (name == ".git" || name == "gen") {
			return filepath.SkipDir
		}
		if kind := filepath.Ext(name); kind != ".go" && kind != ".js" || strings.HasSuffix(name, "_gen.go") {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		read++
		checkLines(t, path, string(text))
		if filepath.Ext(name) == ".go" {
			checkFunctions(t, path, text)
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, read, 500, "the walk found too few files")
}

func checkLines(t *testing.T, path, text string) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	assert.LessOrEqual(t, len(lines), mostFileLines, "lines of %s", path)
	for i, line := range lines {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), mostLineCharacters, "characters of %s:%d", path, i+1)
	}
}

func checkFunctions(t *testing.T, path string, text []byte) {
	t.Helper()
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, path, text, parser.SkipObjectResolution)
	require.NoError(t, err)
	for _, declaration := range file.Decls {
		if f, is := declaration.(*ast.FuncDecl); is {
			lines := files.Position(f.End()).Line - files.Position(f.Pos()).Line + 1
			assert.LessOrEqual(t, lines, mostFunctionLines, "lines of %s in %s", f.Name.Name, path)
		}
	}
}
