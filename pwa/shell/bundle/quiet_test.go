package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEmptied(t *testing.T) {
	for _, c := range []struct {
		name, from, to string
		functions      []string
	}{
		{"no results", "package p\n\n//go:nosplit\nfunc f(a int) { g(a) }\n", "package p\n\n//go:nosplit\nfunc f(a int) {  }\n", nil},
		{"zero values", "package p\n\nfunc (t *T) f() (int, []T) { return 1, nil }\n", "package p\n\nfunc (t *T) f() (int, []T) { return *new(int), *new([]T) }\n", nil},
		{"named results", "package p\n\nfunc f() (a, b uint64) { return 1, 2 }\n", "package p\n\nfunc f() (a, b uint64) { return *new(uint64), *new(uint64) }\n", nil},
		{"only what is named", "package p\n\nfunc f() { g() }\n\nfunc g() { f() }\n", "package p\n\nfunc f() { g() }\n\nfunc g() {  }\n", []string{"g"}},
		{"a parameter called new", "package p\n\nfunc f(old, new int) bool { return old < new }\n", "package p\n\nfunc f(old, new int) bool { return old < new }\n", nil},
		{"written elsewhere", "package p\n\nfunc f()\n", "package p\n\nfunc f()\n", nil},
		{"an import left over", "package p\n\nimport (\n\t\"a/b\"\n\t\"c\"\n)\n\nvar x c.T\n\nfunc f() { b.G() }\n", "package p\n\nimport (\n\t_ \"a/b\"\n\t\"c\"\n)\n\nvar x c.T\n\nfunc f() {  }\n", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := emptied("f.go", []byte(c.from), c.functions)
			require.NoError(t, err)
			assert.Equal(t, c.to, string(out))
		})
	}
	_, err := emptied("f.go", []byte("package"), nil)
	require.Error(t, err)
}

func TestRewritten(t *testing.T) {
	out, err := rewritten("f.go", []byte("package p\n\nfunc (t T) f() { g() }\n\nfunc f() { g() }\n"), "f", "{ h() }")
	require.NoError(t, err)
	assert.Equal(t, "package p\n\nfunc (t T) f() { g() }\n\nfunc f() { h() }\n", string(out))
	_, err = rewritten("f.go", []byte("package p\n"), "f", "{}")
	require.Error(t, err)
}

func TestMute(t *testing.T) {
	for _, c := range []struct{ name, from, to string }{
		{"words and figures", "package p\n\nfunc f(a int) { print(\"a\", hex(a), \"\\n\"); throw(\"a\") }\n", "package p\n\nfunc f(a int) { _, _, _ = \"a\", hex(a), \"\\n\"; throw(\"a\") }\n"},
		{"nothing", "package p\n\nfunc f() {\n\tprintln()\n\tprintln(1)\n}\n", "package p\n\nfunc f() {\n\t\n\t_ = 1\n}\n"},
		{"within a function", "package p\n\nfunc f() { g(func() { print(1) }) }\n", "package p\n\nfunc f() { g(func() { _ = 1 }) }\n"},
		{"a method of that name", "package p\n\nfunc (t T) f() { t.print() }\n", "package p\n\nfunc (t T) f() { t.print() }\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := mute("f.go", []byte(c.from))
			require.NoError(t, err)
			assert.Equal(t, c.to, string(out))
		})
	}
	_, err := mute("f.go", []byte("package"))
	require.Error(t, err)
}

// Whatever is named is there to be emptied, so that the list does not go on naming what a later compiler has not.
func TestQuietIsThere(t *testing.T) {
	if !known() {
		t.Skip("the list was written for go1.26; run with that compiler")
	}
	root, err := goRoot()
	require.NoError(t, err)
	for name, functions := range quiet {
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, "src", "runtime", name), nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		there := map[string]bool{}
		for _, d := range file.Decls {
			if f, is := d.(*ast.FuncDecl); is {
				there[f.Name.Name] = true
			}
		}
		assert.NotEmpty(t, there, name)
		for _, f := range functions {
			assert.True(t, there[f], "%s in %s", f, name)
		}
	}
}
