package count

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

func kindNames() []string {
	var names []string
	for _, k := range job.PieceKinds() {
		names = append(names, k.Value)
	}
	return names
}

// Inside the package because Kinds omits kinds that are registered but not listed.
func TestEveryListedKindHasAFileAndEveryFileALine(t *testing.T) {
	var registeredNames, files, want []string
	for name := range maps.Keys(registered) {
		registeredNames = append(registeredNames, string(name))
	}
	assert.ElementsMatch(t, kindNames(), registeredNames, "registered by kind_*.go and listed in job.PieceKinds")
	paths, err := filepath.Glob("kind_*.go")
	require.NoError(t, err)
	for _, path := range paths {
		if !strings.HasSuffix(path, "_test.go") {
			files = append(files, path)
		}
	}
	for _, name := range kindNames() {
		want = append(want, "kind_"+name+".go")
	}
	assert.ElementsMatch(t, want, files)
}

// otherMeaning lists places where the name of a kind means something else.
var otherMeaning = map[string]string{ // file and literal: meaning
	"app/plan/rigging/dip.go hoop": "a word in the name of a frame",
	"app/store/ledger.go numbers":  "a bucket of the database",
	"pwa/view/clock.go free":       "a CSS class",
}

// A new kind of piece is one file here and one line in job.PieceKinds, so nothing else may name a kind.
func TestOnlyItsOwnFileAndTheListNameAKind(t *testing.T) {
	const root = "../../.."
	names, used, listed := kindNames(), map[string]bool{}, map[string]int{}
	visit := func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		relative, err := filepath.Rel(root, path)
		require.NoError(t, err)
		relative = filepath.ToSlash(relative)
		for name := range literals(file) {
			place := relative + " " + name
			switch {
			case !slices.Contains(names, name) || relative == "app/plan/count/kind_"+name+".go":
			case relative == "app/job/piece.go":
				listed[name]++
			case otherMeaning[place] != "":
				used[place] = true
			default:
				assert.Fail(t, "the name of a kind of piece outside its file", place)
			}
		}
		return nil
	}
	for _, floor := range []string{"app", "pwa", "cmd"} {
		require.NoError(t, filepath.WalkDir(filepath.Join(root, floor), visit))
	}
	for _, name := range names {
		assert.Equal(t, 1, listed[name], "%s is once in job.PieceKinds", name)
	}
	assert.Len(t, used, len(otherMeaning), "a place with another meaning is gone")
}

// literals yields the value of each string literal of the file.
func literals(file *ast.File) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		more := true
		ast.Inspect(file, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING && more {
				value, err := strconv.Unquote(lit.Value)
				more = err != nil || yield(value)
			}
			return more
		})
	}
}
