package cluster

import (
	"fmt"
	"strconv"
	"strings"
)

// MMPerInch converts inches to millimetres (exact by definition).
const MMPerInch = 25.4

// MaxDuplets is the largest number of duplets in a recipe. Most people can twist four (common practice, no source);
// eight leaves room.
const MaxDuplets = 8

// Part is the duplets of one size in a cluster.
type Part struct {
	// Duplets is the number of pairs of this size in the cluster.
	Duplets int `json:"duplets"`
	// SizeIn is the nominal size in inches.
	SizeIn int `json:"size_in"`
	// ToIn is the diameter each balloon is inflated to, in inches.
	ToIn float64 `json:"to_in"`
}

// DiameterMM returns the diameter that each balloon of the part is inflated to.
func (p Part) DiameterMM() float64 { return p.ToIn * MMPerInch }

// String returns the usual notation of the part: "2x11@10".
func (p Part) String() string {
	return strconv.Itoa(p.Duplets) + "x" + strconv.Itoa(p.SizeIn) + "@" + formatInches(p.ToIn)
}

// Recipe lists the duplets of one cluster. In text and in JSON it is "2x11@10 + 1x18@16": two duplets of 11-inch filled
// to 10 in and one of 18-inch filled to 16 in.
type Recipe []Part

// Duplets returns the number of pairs in one cluster.
func (r Recipe) Duplets() int {
	total := 0
	for _, part := range r {
		total += part.Duplets
	}
	return total
}

// Balloons returns the number of balloons in one cluster: two per duplet.
func (r Recipe) Balloons() int { return 2 * r.Duplets() }

// Ties beside those of a base, in modelling balloons (260s). Half of one wraps an accent around the base (common
// practice, no source). A column is wound around its pole and takes one at its foot and one at its top (from memory).
const (
	TiesPerAccent = 0.5
	TiesPerColumn = 2
)

// Ties returns the number of modelling balloons (260s) that join one cluster to its neighbour: one doubled loop per
// cluster (common practice, no source).
func (r Recipe) Ties() int {
	if r.Duplets() == 0 {
		return 0
	}
	return 1
}

// DiametersMM lists the diameter of every balloon of one cluster, smallest size first. It returns nil for an unusable
// recipe (see Check).
func (r Recipe) DiametersMM() []float64 {
	if !r.usable() {
		return nil
	}
	diameters := make([]float64, 0, r.Balloons())
	for _, part := range r.Normal() {
		for range 2 * part.Duplets {
			diameters = append(diameters, part.DiameterMM())
		}
	}
	return diameters
}

// Normal returns the recipe in its normal form: equal parts merged, parts without duplets dropped, sorted by size and
// then by inflated diameter.
func (r Recipe) Normal() Recipe {
	var normal Recipe
	for i := range r {
		part := &r[i]
		if part.Duplets == 0 {
			continue
		}
		at := 0
		for at < len(normal) && normal[at].before(part) {
			at++
		}
		if at < len(normal) && !part.before(&normal[at]) {
			normal[at].Duplets += part.Duplets
			continue
		}
		normal = append(normal, Part{})
		copy(normal[at+1:], normal[at:])
		normal[at] = *part
	}
	return normal
}

// before reports whether a part comes before another in the normal form.
func (p *Part) before(other *Part) bool {
	return p.SizeIn < other.SizeIn || p.SizeIn == other.SizeIn && p.ToIn < other.ToIn
}

// String writes the recipe in its normal form; ParseRecipe reads it back.
func (r Recipe) String() string {
	normal := r.Normal()
	parts := make([]string, len(normal))
	for i, part := range normal {
		parts[i] = part.String()
	}
	return strings.Join(parts, " + ")
}

// MarshalText writes the recipe as String does, so JSON carries the text form.
func (r Recipe) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText reads what MarshalText writes; empty text is an empty recipe.
func (r *Recipe) UnmarshalText(text []byte) error {
	if strings.TrimSpace(string(text)) == "" {
		*r = nil
		return nil
	}
	parsed, err := ParseRecipe(string(text))
	if err != nil {
		return err
	}
	*r = parsed
	return nil
}

// Check returns an error unless a person can build the recipe: one to MaxDuplets duplets of known sizes, each
// inflated to 40 to 100 % of its full diameter.
func (r Recipe) Check() error {
	for _, part := range r {
		if part.Duplets < 0 {
			return fmt.Errorf("recipe %s: a count of duplets cannot be negative: %w", r, ErrRecipe)
		}
		size, known := findSize(part.SizeIn)
		if !known {
			return fmt.Errorf("recipe part %s: no %d-inch balloon; sizes are %s: %w", part, part.SizeIn, sizeList(), ErrRecipe)
		}
		least := 0.4 * size.FullIn
		if !(part.ToIn >= least && part.ToIn <= size.FullIn) {
			return fmt.Errorf("recipe part %s: a balloon of size %d is sized to between %s and %s in: %w",
				part, part.SizeIn, formatInches(least), formatInches(size.FullIn), ErrRecipe)
		}
	}
	if n := r.Duplets(); n < 1 || n > MaxDuplets {
		return fmt.Errorf("recipe has %d duplets; a cluster takes 1 to %d, as in 2x11@10 + 1x18@16: %w", n, MaxDuplets,
			ErrRecipe)
	}
	return nil
}

// Limits of diameters in inches for geometry.
const (
	leastIn = 0.1
	mostIn  = 1000
)

// usable reports whether the recipe can be drawn. It accepts more than Check, because a page draws while somebody is
// still typing.
func (r Recipe) usable() bool {
	if n := r.Duplets(); n < 1 || n > MaxDuplets {
		return false
	}
	for _, part := range r {
		if part.Duplets < 0 || !(part.ToIn >= leastIn && part.ToIn <= mostIn) {
			return false
		}
	}
	return true
}

func formatInches(inches float64) string {
	return strconv.FormatFloat(inches, 'f', -1, 64)
}
