package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// quiet names functions of the compiler's runtime that never do anything on a phone: nobody traces or profiles it there,
// and a printed traceback has no names, since slim takes them out. They are compiled without a body, so that the core does
// not carry them, and give zero values. What a panic says is printed as ever, by the files in loud.
// Of a file whose list is empty all functions are meant.
var quiet = map[string][]string{
	"trace.go":          nil,
	"traceallocfree.go": nil,
	"tracebuf.go":       nil,
	"tracecpu.go":       nil,
	"traceevent.go":     nil,
	"tracemap.go":       nil,
	"traceregion.go":    nil,
	"traceruntime.go":   nil,
	"tracestack.go":     nil,
	"tracestatus.go":    nil,
	"tracestring.go":    nil,
	"tracetime.go":      nil,
	"tracetype.go":      nil,
	"mprof.go":          nil,
	"cpuprof.go":        nil,
	"profbuf.go":        nil,
	"hexdump.go":        nil,
	"mcheckmark.go":     nil,
	"traceback.go": {"traceback", "tracebacktrap", "traceback1", "traceback2", "printAncestorTraceback", "printAncestorTracebackFuncInfo", "goroutineheader",
		"tracebackothers", "tracebacksomeothers", "tracebackHexdump", "printcreatedby", "printcreatedby1", "printArgs", "printFuncName", "funcNameForPrint",
		"printCgoTraceback", "printOneCgoTraceback", "callCgoSymbolizer", "tracebackPCs", "callers", "gcallers", "showframe", "showfuncinfo"},
	"symtab.go":      {"Next", "expandCgoFrames", "moduledataverify1"},
	"error.go":       {"printanycustomtype"},
	"mgcmark.go":     {"gcDumpObject", "scanConservative"},
	"mgcsweep.go":    {"reportZombies"},
	"mgcscavenge.go": {"printScavTrace", "scavengeOne", "findScavengeCandidate", "find"}, // wasm gives no memory back
	"mgc.go":         {"findGoroutineLeaks", "findMaybeRunnableGoroutines"},
	"arena.go":       {"setUserArenaChunkToFault"},
	"proc.go":        {"schedtrace", "saveAncestors", "checkdead", "runqgrab", "mexit", "dumpgstatus"}, // one thread, one processor
	"runtime1.go":    {"check", "testAtomic64", "parsegodebug"},
	"string.go":      {"parseByteCount"},
	"type.go":        {"typelinksinit", "typesEqual"}, // of several modules
}

// loud are the files that print what a panic says.
var loud = []string{"panic.go", "error.go", "print.go"}

// quieten writes the runtime's files without what is quiet, and without what only a broken runtime prints, into a folder and
// adds them to the replaced files.
func quieten(runtimeDir, into string, replace map[string]string) error {
	files, err := sourceFiles(runtimeDir)
	if err != nil {
		return err
	}
	for _, path := range files {
		name := filepath.Base(path)
		whole, err := os.ReadFile(path)
		if err != nil {
			return fmt.Errorf("read the runtime: %w", err)
		}
		text := whole
		if functions, is := quiet[name]; is {
			if text, err = emptied(name, text, functions); err != nil {
				return err
			}
		}
		if name == "symtab.go" {
			if text, err = rewritten(name, text, "findfunc", findByNumber); err != nil {
				return err
			}
		}
		if !slices.Contains(loud, name) {
			if text, err = mute(name, text); err != nil {
				return err
			}
		}
		if bytes.Equal(text, whole) {
			continue
		}
		file := filepath.Join(into, "runtime_"+name)
		if err := os.WriteFile(file, text, 0o644); err != nil {
			return fmt.Errorf("write the runtime: %w", err)
		}
		replace[path] = file
	}
	return nil
}

// mute gives a source file with its calls of print and println replaced by assignments to nothing.
func mute(name string, text []byte) ([]byte, error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, name, text, parser.SkipObjectResolution)
	if err != nil {
		return nil, fmt.Errorf("read the runtime: %w", err)
	}
	at := func(p token.Pos) int { return files.Position(p).Offset }
	var calls []*ast.CallExpr
	ast.Inspect(file, func(n ast.Node) bool {
		if s, is := n.(*ast.ExprStmt); is {
			if call, is := s.X.(*ast.CallExpr); is {
				if f, is := call.Fun.(*ast.Ident); is && (f.Name == "print" || f.Name == "println") {
					calls = append(calls, call)
				}
			}
		}
		return true
	})
	out := slices.Clone(text)
	for _, call := range slices.Backward(calls) { // from the end, so that places before stay where they are
		said := ""
		if n := len(call.Args); n > 0 {
			said = strings.Repeat("_, ", n-1) + "_ = " + string(text[at(call.Args[0].Pos()):at(call.Args[n-1].End())])
		}
		out = slices.Replace(out, at(call.Pos()), at(call.End()), []byte(said)...)
	}
	return out, nil
}

// emptied gives a source file with the bodies of these functions, or of all if none is named, doing nothing.
func emptied(name string, text []byte, functions []string) ([]byte, error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, name, text, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		return nil, fmt.Errorf("read the runtime: %w", err)
	}
	at := func(p token.Pos) int { return files.Position(p).Offset }
	out := slices.Clone(text)
	for i := len(file.Decls) - 1; i >= 0; i-- { // from the end, so that places before stay where they are
		f, is := file.Decls[i].(*ast.FuncDecl)
		if !is || f.Body == nil || hidesNew(f) || len(functions) > 0 && !slices.Contains(functions, f.Name.Name) {
			continue
		}
		body := "{ " + zeroReturn(f, func(e ast.Expr) string { return string(text[at(e.Pos()):at(e.End())]) }) + " }"
		out = slices.Replace(out, at(f.Body.Pos()), at(f.Body.End()), []byte(body)...)
	}
	return unusedImports(name, out)
}

// findByNumber is the runtime's way from a program counter to a function, without the linker's table of places: on
// WebAssembly the counter holds the function's number, and the index lists functions by it.
const findByNumber = `{
	datap := findmoduledatap(pc)
	if datap == nil {
		return funcInfo{}
	}
	pcOff, ok := datap.textOff(pc)
	if !ok {
		return funcInfo{}
	}
	idx := min(pcOff-datap.ftab[0].entryoff, uint32(len(datap.ftab)-2))
	for datap.ftab[idx].entryoff > pcOff {
		idx--
	}
	for datap.ftab[idx+1].entryoff <= pcOff {
		idx++
	}
	funcoff := datap.ftab[idx].funcoff
	return funcInfo{(*_func)(unsafe.Pointer(&datap.pclntable[funcoff])), datap}
}`

// rewritten gives a source file with another body for one function.
func rewritten(name string, text []byte, function, body string) ([]byte, error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, name, text, parser.SkipObjectResolution)
	if err != nil {
		return nil, fmt.Errorf("read the runtime: %w", err)
	}
	for _, d := range file.Decls {
		if f, is := d.(*ast.FuncDecl); is && f.Name.Name == function && f.Recv == nil && f.Body != nil {
			from, to := files.Position(f.Body.Pos()).Offset, files.Position(f.Body.End()).Offset
			return slices.Replace(slices.Clone(text), from, to, []byte(body)...), nil
		}
	}
	return nil, fmt.Errorf("%s of the runtime has no function %s", name, function)
}

// zeroReturn is a statement that returns the zero values of a function's results; "" if it has none.
func zeroReturn(f *ast.FuncDecl, source func(ast.Expr) string) string {
	if f.Type.Results == nil {
		return ""
	}
	var zeros []string
	for _, result := range f.Type.Results.List {
		for range max(1, len(result.Names)) {
			zeros = append(zeros, "*new("+source(result.Type)+")")
		}
	}
	return "return " + strings.Join(zeros, ", ")
}

// hidesNew reports whether a parameter is called new, so that zeroReturn cannot make zero values there.
func hidesNew(f *ast.FuncDecl) bool {
	for _, field := range f.Type.Params.List {
		for _, name := range field.Names {
			if name.Name == "new" {
				return true
			}
		}
	}
	return false
}

// unusedImports keeps the compiler content about imports that nothing refers to any more.
func unusedImports(name string, text []byte) ([]byte, error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, name, text, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		return nil, fmt.Errorf("empty the runtime: %w", err)
	}
	used := map[string]bool{}
	ast.Inspect(file, func(n ast.Node) bool {
		if s, is := n.(*ast.SelectorExpr); is {
			if x, is := s.X.(*ast.Ident); is {
				used[x.Name] = true
			}
		}
		return true
	})
	for i := len(file.Imports) - 1; i >= 0; i-- {
		spec := file.Imports[i]
		path, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			return nil, fmt.Errorf("empty the runtime: %w", err)
		}
		if spec.Name == nil && !used[path[strings.LastIndexByte(path, '/')+1:]] {
			text = slices.Insert(text, files.Position(spec.Path.Pos()).Offset, []byte("_ ")...)
		}
	}
	return text, nil
}
