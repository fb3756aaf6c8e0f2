//go:build !js

package fmt_test

import (
	"encoding/json"
	"errors"
	real "fmt"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"garlandry/pwa/shell/standin/fmt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// call is a place in the sources of the on-device core where something is printed.
type call struct {
	where  token.Position
	format string
	args   []types.Type
}

// TestTheCoreAsksForNothingElse reads every package that the on-device core is built from and that prints, ours and others',
// and formats each format found there with values of each argument's type.
func TestTheCoreAsksForNothingElse(t *testing.T) {
	calls := callsOfTheCore(t)
	require.Greater(t, len(calls), 150, "places that print")
	for _, c := range calls {
		verbs, err := verbsOf(c.format)
		if !assert.NoError(t, err, "%s: %q", c.where, c.format) || !assert.Len(t, c.args, len(verbs), "%s: %q", c.where, c.format) {
			continue
		}
		var kinds []string
		for i, v := range verbs {
			kind := kindOf(c.args[i], v.verb)
			assert.NotEmpty(t, kind, "%s: %q prints a %s, which the stand-in cannot", c.where, c.format, c.args[i])
			assert.True(t, known(kind, v), "%s: the stand-in has no %s for a %s", c.where, v.all, c.args[i])
			kinds = append(kinds, kind)
		}
		for round := range 12 {
			args := make([]any, len(kinds))
			for i, kind := range kinds {
				if values := samples[kind]; len(values) > 0 {
					args[i] = values[(round+i)%len(values)]
				}
			}
			sameError(t, real.Errorf(c.format, args...), fmt.Errorf(c.format, args...))
		}
	}
}

func TestTheCheckOfTheSourcesFindsWhatTheStandInCannot(t *testing.T) {
	for name, row := range map[string]struct {
		format string
		arg    types.Type
	}{
		"struct":                   {"%v", types.NewStruct(nil, nil)},
		"map":                      {"%v", types.NewMap(types.Typ[types.String], types.Typ[types.Int])},
		"pointer":                  {"%v", types.NewPointer(types.Typ[types.Int])},
		"list of structs":          {"%v", types.NewSlice(types.NewStruct(nil, nil))},
		"complex":                  {"%v", types.Typ[types.Complex128]},
		"anything":                 {"%v", types.NewInterfaceType(nil, nil)},
		"number in text":           {"%s", types.Typ[types.Int]},
		"number quoted":            {"%q", types.Typ[types.Int]},
		"octal":                    {"%o", types.Typ[types.Int]},
		"pointer's address":        {"%p", types.NewPointer(types.Typ[types.Int])},
		"text to the second power": {"%b", types.Typ[types.String]},
		"Go syntax":                {"%#v", types.Typ[types.Int]},
		"wrapped text":             {"%w", types.Typ[types.String]},
		"width from an argument":   {"%*d", types.Typ[types.Int]},
		"numbered argument":        {"%[1]d", types.Typ[types.Int]},
		"no verb":                  {"%", types.Typ[types.Int]},
	} {
		t.Run(name, func(t *testing.T) {
			verbs, err := verbsOf(row.format)
			assert.True(t, err != nil || !known(kindOf(row.arg, verbs[0].verb), verbs[0]))
		})
	}
}

type directive struct {
	all, flags string
	verb       rune
}

var percent = regexp.MustCompile(`%([-+# 0]*)[0-9]*(?:\.[0-9]*)?(.|$)`)

// verbsOf lists what a format asks for, one for each argument.
func verbsOf(format string) ([]directive, error) {
	var found []directive
	for _, m := range percent.FindAllStringSubmatch(format, -1) {
		switch {
		case m[2] == "":
			return nil, errors.New("a percent sign without a verb")
		case m[2] == "*" || m[2] == "[":
			return nil, errors.New("an argument by number or as a width")
		case m[2] != "%":
			found = append(found, directive{m[0], m[1], []rune(m[2])[0]})
		}
	}
	return found, nil
}

// known says that the stand-in has a verb, with its flags, for a kind of samples.
func known(kind string, v directive) bool {
	if strings.Contains(v.flags, "#") && (v.verb == 'v' || v.verb == 'q' || kind == "float") {
		return false
	}
	verbs := map[string]string{"bool": "vtT", "int": "vdxXcUT", "uint": "vdxXcUT", "float": "veEfgGxXT", "string": "vsqxXT",
		"error": "vswqxXT", "stringer": "vsqxXT", "bytes": "vdsqxXT", "list": "vT"}[kind]
	return strings.ContainsRune(verbs, v.verb)
}

// kindOf returns the samples that stand for a type printed with a verb, none when the stand-in cannot print it.
func kindOf(t types.Type, verb rune) string {
	words := strings.ContainsRune("vswqxX", verb)
	switch {
	case has(t, "Format"), has(t, "GoString") && verb == 'v' && !has(t, "String") && !has(t, "Error"):
		return ""
	case words && has(t, "Error"):
		return "error"
	case words && has(t, "String"):
		return "stringer"
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		switch {
		case u.Info()&types.IsBoolean != 0:
			return "bool"
		case u.Info()&types.IsUnsigned != 0:
			return "uint"
		case u.Info()&types.IsInteger != 0:
			return "int"
		case u.Info()&types.IsFloat != 0:
			return "float"
		case u.Info()&types.IsString != 0:
			return "string"
		}
	case *types.Slice:
		return listOf(u.Elem())
	case *types.Array:
		return listOf(u.Elem())
	}
	return ""
}

func listOf(element types.Type) string {
	if b, ok := element.Underlying().(*types.Basic); ok && b.Kind() == types.Uint8 {
		return "bytes"
	}
	if kindOf(element, 'v') == "" {
		return ""
	}
	return "list"
}

func has(t types.Type, method string) bool {
	m, _, _ := types.LookupFieldOrMethod(t, false, nil, method)
	_, is := m.(*types.Func)
	return is
}

// replaced are packages that the core is built without, since a stand-in takes the place of html/template.
var replaced = []string{"fmt", "html/template", "text/template", "text/template/parse"}

type listed struct {
	ImportPath, Dir, Export string
	GoFiles, Imports        []string
}

func callsOfTheCore(t *testing.T) []call {
	cmd := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles,Imports", "garlandry/cmd/ondevice")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var all []listed
	exports := map[string]string{}
	for in := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		err := in.Decode(&p)
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		all = append(all, p)
		exports[p.ImportPath] = p.Export
	}
	files := token.NewFileSet()
	compiled := importer.ForCompiler(files, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	var calls []call
	for _, p := range all {
		if prints(p) && !slices.Contains(replaced, p.ImportPath) {
			calls = append(calls, callsOf(t, files, compiled, p)...)
		}
	}
	return calls
}

// prints says that a package may print: it imports fmt or one of ours, or the page library, whose functions take formats.
func prints(p listed) bool {
	return slices.ContainsFunc(p.Imports, func(i string) bool {
		return i == "fmt" || strings.Contains(i, ".") || strings.HasPrefix(i, "garlandry/")
	})
}

func callsOf(t *testing.T, files *token.FileSet, compiled types.Importer, p listed) []call {
	var parsed []*ast.File
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(files, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		parsed = append(parsed, f)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	checker := types.Config{Importer: compiled, Sizes: types.SizesFor("gc", "wasm")}
	_, err := checker.Check(p.ImportPath, files, parsed, info)
	require.NoError(t, err)
	var calls []call
	for _, f := range parsed {
		ast.Inspect(f, func(n ast.Node) bool {
			if c, ok := n.(*ast.CallExpr); ok {
				if found, ok := callAt(t, files, info, c); ok {
					calls = append(calls, found)
				}
			}
			return true
		})
	}
	return calls
}

// callAt reads a call of a function that takes a format, or of one of the real package that takes none. A function that
// hands on a format and arguments of its own is left out, since the calls of it are read; so are the calls of JavaScript.
func callAt(t *testing.T, files *token.FileSet, info *types.Info, c *ast.CallExpr) (call, bool) {
	s, ok := info.Types[c.Fun].Type.(*types.Signature)
	if !ok || !s.Variadic() {
		return call{}, false
	}
	last := s.Params().Len() - 1
	if from := s.Params().At(last).Pkg(); from != nil && from.Path() == "syscall/js" {
		return call{}, false
	}
	rest, ok := s.Params().At(last).Type().(*types.Slice)
	if !ok || !types.Identical(rest.Elem(), types.NewInterfaceType(nil, nil)) {
		return call{}, false
	}
	found := call{where: files.Position(c.Pos())}
	for _, arg := range c.Args[last:] {
		found.args = append(found.args, info.Types[arg].Type)
	}
	if last > 0 && types.Identical(s.Params().At(last-1).Type(), types.Typ[types.String]) {
		format := info.Types[c.Args[last-1]].Value
		if format == nil {
			assert.True(t, c.Ellipsis.IsValid(), "%s: the format is no constant", found.where)
			return call{}, false
		}
		assert.False(t, c.Ellipsis.IsValid(), "%s: the arguments are not written out", found.where)
		found.format = constant.StringVal(format)
		return found, true
	}
	if callee, ok := c.Fun.(*ast.SelectorExpr); ok && strings.HasPrefix(callee.Sel.Name, "Sprint") {
		found.format = strings.Repeat("%v", len(found.args))
		return found, true
	}
	return call{}, false
}
