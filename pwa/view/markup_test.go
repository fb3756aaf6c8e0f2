package view_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/pwa/view"
)

// Templates are not checked by the compiler, so that they fit what is filled into them is checked here, for every one
// in the package.
func TestTemplatesFitWhatIsFilledIn(t *testing.T) {
	templates := 0
	eachCall(t, func(where, name string, call *ast.CallExpr) {
		template, fixed := literal(call.Args[0])
		switch name {
		case "html":
			require.True(t, fixed, "%s: a template is a constant", where)
			templates++
			texts := 0
			if list, given := call.Args[1].(*ast.CompositeLit); given {
				texts = len(list.Elts)
			}
			assert.Equal(t, strings.Count(template, "$"), texts, "%s: texts", where)
			if call.Ellipsis == token.NoPos {
				assert.Equal(t, strings.Count(template, "{}"), len(call.Args)-2, "%s: nodes", where)
			}
		case "fixed":
			require.True(t, fixed, "%s: a template is a constant", where)
			templates++
			assert.Zero(t, strings.Count(template, "$")+strings.Count(template, "{}"), "%s: nothing to fill in", where)
		case "el", "txt":
			if fixed {
				assert.Regexp(t, `^[a-z][a-z0-9]*( [a-zA-Z-]+(="[^"<>&]*")?)*$`, template, "%s: a start tag", where)
			}
			return
		default:
			return
		}
		for _, icon := range regexp.MustCompile(`\{(\w+)\}`).FindAllStringSubmatch(template, -1) {
			assert.NotContains(t, render(t, view.Icon(icon[1])), `d=""`, "%s: the icon %s is drawn", where, icon[1])
		}
		assert.Empty(t, openTags(template), "%s: every element ends, innermost first", where)
	})
	assert.Greater(t, templates, 150, "the package's templates were found")
}

// eachCall visits the package's calls of a function by its bare name that have an argument.
func eachCall(t *testing.T, visit func(where, name string, call *ast.CallExpr)) {
	t.Helper()
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	for _, entry := range entries {
		if !strings.HasSuffix(entry.Name(), ".go") || strings.HasSuffix(entry.Name(), "_test.go") ||
			entry.Name() == "markup.go" {
			continue
		}
		files := token.NewFileSet()
		file, err := parser.ParseFile(files, entry.Name(), nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok && len(call.Args) > 0 {
				if name, ok := call.Fun.(*ast.Ident); ok {
					visit(files.Position(call.Pos()).String(), name.Name, call)
				}
			}
			return true
		})
	}
}

func literal(e ast.Expr) (string, bool) {
	basic, ok := e.(*ast.BasicLit)
	if !ok || basic.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(basic.Value)
	return text, err == nil
}

var tag = regexp.MustCompile(`<(/?)([a-z0-9]+)[^>]*>`)

// openTags lists the elements of a template that do not end, and the ends without an element.
func openTags(template string) []string {
	var open []string
	for _, found := range tag.FindAllStringSubmatch(template, -1) {
		switch last := len(open) - 1; {
		case strings.Contains(" area base br col embed hr img input link meta source track wbr ", " "+found[2]+" "):
		case found[1] == "":
			open = append(open, found[2])
		case last >= 0 && open[last] == found[2]:
			open = open[:last]
		default:
			return append(open, "/"+found[2])
		}
	}
	return open
}
