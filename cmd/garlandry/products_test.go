package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestProductsAreRoundedBeforeTheyAreAdded checks that every floating-point product is converted before it is added or
// subtracted. Go may otherwise fuse the two on some processors, and server and phone would compute different numbers.
func TestProductsAreRoundedBeforeTheyAreAdded(t *testing.T) {
	list := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles,Standard",
		"garlandry/calc/...", "garlandry/app/plan")
	list.Stderr = os.Stderr
	out, err := list.Output()
	require.NoError(t, err)
	type listed struct {
		ImportPath, Dir, Export string
		GoFiles                 []string
	}
	exports, ours := map[string]string{}, []listed{}
	for decoder := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
		exports[p.ImportPath] = p.Export
		if strings.HasPrefix(p.ImportPath, "garlandry/calc/") || p.ImportPath == "garlandry/app/plan" {
			ours = append(ours, p)
		}
	}
	require.NotEmpty(t, ours)
	files := token.NewFileSet()
	loader := importer.ForCompiler(files, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	for _, p := range ours {
		var parsed []*ast.File
		for _, name := range p.GoFiles {
			file, err := parser.ParseFile(files, filepath.Join(p.Dir, name), nil, 0)
			require.NoError(t, err)
			parsed = append(parsed, file)
		}
		for _, place := range bareProducts(t, files, loader, p.ImportPath, parsed) {
			assert.Fail(t, "a product is added before it is rounded; write float64(a*b)", "%s", place)
		}
	}
}

// TestBareProductsAreFound tests the check itself.
func TestBareProductsAreFound(t *testing.T) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, "sample.go", `package sample
func f(a, b, c float64, n int) float64 {
	c += a * b
	c = c - (a * b)
	c = -a*b + c
	c = float64(a*b) + c + 2*3.5
	return c + a/b + float64(n*n+n)
}`, 0)
	require.NoError(t, err)
	assert.Len(t, bareProducts(t, files, nil, "sample", []*ast.File{file}), 3)
}

// bareProducts returns the places where a product of floats is added or subtracted without a conversion.
func bareProducts(
	t *testing.T,
	files *token.FileSet,
	loader types.Importer,
	path string,
	parsed []*ast.File,
) (places []string) {
	info := types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	config := types.Config{Importer: loader}
	_, err := config.Check(path, files, parsed, &info)
	require.NoError(t, err)
	look := func(side ast.Expr) {
		for {
			switch inner := side.(type) {
			case *ast.ParenExpr:
				side = inner.X
				continue
			case *ast.UnaryExpr:
				side = inner.X
				continue
			}
			break
		}
		product, is := side.(*ast.BinaryExpr)
		if !is || product.Op != token.MUL {
			return
		}
		basic, known := info.Types[product].Type.Underlying().(*types.Basic)
		if known && basic.Info()&types.IsFloat != 0 && info.Types[product].Value == nil {
			places = append(places, files.Position(product.Pos()).String())
		}
	}
	for _, file := range parsed {
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BinaryExpr:
				if n.Op == token.ADD || n.Op == token.SUB {
					look(n.X)
					look(n.Y)
				}
			case *ast.AssignStmt:
				if n.Tok == token.ADD_ASSIGN || n.Tok == token.SUB_ASSIGN {
					look(n.Rhs[0])
				}
			}
			return true
		})
	}
	return places
}
