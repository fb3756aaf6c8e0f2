// Command tabulate writes the table of curves that calc/cluster uses, by relaxing every entry with calc/softsphere. It
// does nothing if the table was made from the same sources; -force makes it anyway. go generate in calc/cluster runs
// it.
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"go/scanner"
	"go/token"
	"hash"
	"hash/fnv"
	"log"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"sync"
	"sync/atomic"

	"garlandry/calc/cluster/internal/table"
	"garlandry/calc/softsphere"
)

const (
	target  = "internal/table/curves_gen.go"
	sizes   = "internal/table/sizes_gen.go"
	stamped = "// Made from sources "
)

func main() {
	log.SetFlags(0)
	force := flag.Bool("force", false, "make the table anew even if nothing changed")
	kept := flag.String("profiles", "",
		"file that keeps the relaxed profiles, to make the table again without relaxing")
	flag.Parse()
	if err := tabulate(*force, *kept); err != nil {
		log.Fatal(err)
	}
}

func tabulate(force bool, kept string) error {
	stamp, err := stampOf("../softsphere/*.go", "../rng/*.go", "internal/table/layout.go", "internal/table/code.go",
		"internal/table/pack.go", "internal/table/substitute.go", "internal/table/lookup.go",
		"internal/table/growth.go", "internal/tabulate/*.go")
	if err != nil {
		return err
	}
	if old, err := os.ReadFile(target); err == nil && !force && strings.Contains(string(old), stamped+stamp+".") {
		return nil
	}
	all, err := profiles(kept)
	if err != nil {
		return err
	}
	if err := os.WriteFile(target, []byte(source(stamp, written(all))), 0o644); err != nil {
		return fmt.Errorf("write the table of curves: %w", err)
	}
	if err := os.WriteFile(sizes, []byte(sizesSource(all)), 0o644); err != nil {
		return fmt.Errorf("write the table of sizes: %w", err)
	}
	return nil
}

// stampOf hashes the code that the table depends on, without tests, comments and layout.
func stampOf(patterns ...string) (string, error) {
	var names []string
	for _, pattern := range patterns {
		found, err := filepath.Glob(pattern)
		if err != nil {
			return "", fmt.Errorf("look for %s: %w", pattern, err)
		}
		names = append(names, found...)
	}
	sort.Strings(names)
	sum := fnv.New64a()
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return "", fmt.Errorf("read the sources of the table: %w", err)
		}
		addTokens(sum, text)
	}
	return fmt.Sprintf("%016x", sum.Sum64()), nil
}

// addTokens adds the tokens of a Go file to a hash, one a line. A comma before a closing bracket is layout.
func addTokens(sum hash.Hash, text []byte) {
	var scan scanner.Scanner
	scan.Init(token.NewFileSet().AddFile("", -1, len(text)), text, nil, 0)
	comma := false
	for {
		_, tok, literal := scan.Scan()
		closes := tok == token.RPAREN || tok == token.RBRACE || tok == token.RBRACK
		if comma && !closes {
			fmt.Fprintln(sum, token.COMMA)
		}
		comma = tok == token.COMMA
		switch {
		case tok == token.EOF:
			return
		case tok != token.SEMICOLON && !comma:
			fmt.Fprintln(sum, tok, literal)
		}
	}
}

// written writes every cluster of the table: first those of one size, then of two, then of three, which are compared
// with two.
func written(all []*softsphere.Profile) (book table.Book) {
	curves := make([]*softsphere.Curve, len(all))
	for i := range all {
		curves[i] = &all[i].Curve
	}
	alike, mixed, three := len(table.Alike()), len(table.Mixed()), table.Three()
	for _, curve := range curves[:alike] {
		book.Alike += table.Encode(curve)
	}
	book.Mixed = table.Pack(curves[alike : alike+mixed])
	factors := make([]*softsphere.Curve, len(three))
	for i, groups := range three {
		factors[i] = book.Factors(groups, curves[alike+mixed+i])
	}
	book.Three = table.PackFactors(factors)
	return book
}

// rows lists every cluster of the table.
func rows() [][]table.Group { return slices.Concat(table.Alike(), table.Mixed(), table.Three()) }

// profiles relaxes every cluster of the table, or reads them from the file that keeps them, if there is one.
func profiles(kept string) ([]*softsphere.Profile, error) {
	var all []*softsphere.Profile
	if text, err := os.ReadFile(kept); err == nil {
		if err := json.Unmarshal(text, &all); err != nil || len(all) != len(rows()) {
			return nil, fmt.Errorf("read %d of %d kept profiles: %w", len(all), len(rows()), err)
		}
		return all, nil
	}
	all, err := relax(rows())
	if err != nil || kept == "" {
		return all, err
	}
	text, err := json.Marshal(all)
	if err != nil {
		return nil, fmt.Errorf("write profiles: %w", err)
	}
	if err := os.WriteFile(kept, text, 0o644); err != nil {
		return nil, fmt.Errorf("keep profiles: %w", err)
	}
	return all, nil
}

// relax computes the profiles of clusters, two at a time, and prints how many are done.
func relax(rows [][]table.Group) ([]*softsphere.Profile, error) {
	all, errs := make([]*softsphere.Profile, len(rows)), make([]error, len(rows))
	var workers sync.WaitGroup
	var done atomic.Int64
	for worker := range 2 {
		workers.Go(func() {
			for i := worker; i < len(rows); i += 2 {
				all[i], errs[i] = softsphere.NewProfile(table.Diameters(rows[i]))
				if n := done.Add(1); n%20 == 0 {
					log.Printf("%d of %d clusters relaxed", n, len(rows))
				}
			}
		})
	}
	workers.Wait()
	for i, err := range errs {
		if err != nil {
			return nil, fmt.Errorf("relax %+v: %w", rows[i], err)
		}
	}
	return all, nil
}

func source(stamp string, book table.Book) string {
	var text strings.Builder
	text.WriteString("// Code generated by calc/cluster/internal/tabulate; DO NOT EDIT.\n")
	text.WriteString(stamped + stamp + ".\n\npackage table\n")
	write := func(name, about, whole string, width int) {
		fmt.Fprintf(&text, "\n// %s are %s.\nconst %s = \"\" +\n", name, about, name)
		for from := 0; from < len(whole); from += width {
			end := " +"
			if from+width >= len(whole) {
				end = ""
			}
			fmt.Fprintf(&text, "\t%q%s\n", whole[from:min(from+width, len(whole))], end)
		}
	}
	write("alike", "the curves of one size, Width characters each", book.Alike, table.Width)
	write("mixed", "the curves of two sizes, see Pack", book.Mixed, table.MixedRows)
	write("three", "the factors of three sizes, see PackFactors", book.Three, table.ThreeRows)
	return text.String()
}

// weightWidth is the weight of clusters of several sizes in the growth of the visible width, so that it is about as
// often too wide as too narrow. All other growths are those of clusters of one size.
const weightWidth = 0.1

// sizesSource returns the growths of all sizes as Go.
func sizesSource(all []*softsphere.Profile) string {
	var text strings.Builder
	text.WriteString("// Code generated by calc/cluster/internal/tabulate; DO NOT EDIT.\n\npackage table\n\n")
	text.WriteString("import \"garlandry/calc/softsphere\"\n")
	grown := func(quarters int, weight, least float64, of func(*softsphere.Profile) float64) table.Growth {
		samples := make([]sample, len(all))
		for i, groups := range rows() {
			diameters := table.Diameters(groups)
			mean := 0.0
			for _, d := range diameters {
				mean += d / float64(len(diameters))
			}
			samples[i] = sample{groups, of(all[i]) * mean / diameters[len(diameters)-1]}
		}
		return fit(samples, quarters, weight, least)
	}
	write := func(name, about string, g table.Growth) {
		fmt.Fprintf(&text, "\n// %s is the growth of %s.\nvar %s = %s\n", name, about, name, goList("Growth", g[:]))
	}
	write("ball", "the sphere that holds a free cluster",
		grown(table.BallQuarters, 0, 2, func(p *softsphere.Profile) float64 { return p.Ball }))
	write("seen", "the disc that a free cluster seems to be",
		grown(table.SeenQuarters, 0, 0, func(p *softsphere.Profile) float64 { return p.Seen }))
	writeString := func(name, about string, weight, least float64, of func(*softsphere.Profile) *softsphere.AtPushes) {
		var pushes [table.MostDuplets]softsphere.AtPushes
		for push := range softsphere.Points {
			growth := grown(table.StringQuarters, weight, least,
				func(p *softsphere.Profile) float64 { return of(p)[push] })
			for i, size := range growth {
				pushes[i][push] = size
			}
		}
		fmt.Fprintf(&text, "\n// %s is the growth of %s, at every push.\n", name, about)
		fmt.Fprintf(&text, "var %s = [MostDuplets]softsphere.AtPushes{\n", name)
		for _, sizes := range pushes {
			fmt.Fprintf(&text, "\t%s,\n", goList("", sizes[:]))
		}
		text.WriteString("}\n")
	}
	writeString("width", "the visible width of a string", weightWidth, 0,
		func(p *softsphere.Profile) *softsphere.AtPushes { return &p.Width })
	writeString("widest", "the largest width of a string", 0, 2,
		func(p *softsphere.Profile) *softsphere.AtPushes { return &p.Widest })
	return text.String()
}

// goList writes figures as a Go literal.
func goList(kind string, figures []float64) string {
	var text strings.Builder
	for i, figure := range figures {
		if i > 0 {
			text.WriteString(", ")
		}
		fmt.Fprintf(&text, "%g", figure)
	}
	return kind + "{" + text.String() + "}"
}
