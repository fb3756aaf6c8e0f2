package pattern_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/pattern"
)

func ExampleLay() {
	// Ten clusters of four balloons: 20 coral, 12 sand, 8 blush.
	laid, err := pattern.Lay(pattern.Base{
		Clusters: 10, Rule: pattern.Scattered, Sizes: []pattern.Size{{Each: 4, Colours: []int{20, 12, 8}}},
	})
	fmt.Println(laid.Sequence, err)
	for k, kind := range laid.Kinds {
		fmt.Println(kind.Count, "of", pattern.Name(k), kind.Of)
	}
	// Output:
	// [0 1 0 0 0 0 1 0 0 0] <nil>
	// 8 of A [[2 1 1]]
	// 2 of B [[2 2 0]]
}

// row is one size of the given balloons in a cluster and colours.
func row(each int, colours ...int) []pattern.Size {
	return []pattern.Size{{Each: each, Colours: colours}}
}

func lay(t require.TestingT, b pattern.Base) pattern.Laid {
	laid, err := pattern.Lay(b)
	require.NoError(t, err)
	return laid
}

// letters writes a sequence with the colour of each cluster's only kind of balloon, or ? for a mixed cluster.
func letters(laid pattern.Laid, size int) string {
	text := ""
	for _, k := range laid.Sequence {
		letter := "?"
		each := 0
		for _, n := range laid.Kinds[k].Of[size] {
			each += n
		}
		for c, n := range laid.Kinds[k].Of[size] {
			if n == each {
				letter = pattern.Name(c)
			}
		}
		text += letter
	}
	return text
}

func TestRules(t *testing.T) {
	for _, c := range []struct {
		name  string
		base  pattern.Base
		sizes []string // the colours of whole clusters, ? for mixed ones
	}{
		{"rings of equal shares go in turn", pattern.Base{Clusters: 9, Rule: pattern.Rings, Sizes: row(4, 12, 12, 12)},
			[]string{"ABCABCABC"}},
		{"rings of a half and two quarters", pattern.Base{Clusters: 8, Rule: pattern.Rings, Sizes: row(4, 16, 8, 8)},
			[]string{"ABACABAC"}},
		{"rings with leftovers have one mixed cluster", pattern.Base{Clusters: 4, Rule: pattern.Rings, Sizes: row(4, 10, 6)},
			[]string{"ABA?"}},
		{"rings stand at one height in both columns",
			pattern.Base{Clusters: 8, Strands: 2, Rule: pattern.Rings, Sizes: row(4, 16, 16)}, []string{"ABABABAB"}},
		{"rings of a wall go through all strips",
			pattern.Base{Clusters: 9, Strands: 3, Joined: true, Rule: pattern.Rings, Sizes: row(4, 12, 12, 12)},
			[]string{"ABCABCABC"}},
		{"bands", pattern.Base{Clusters: 6, Rule: pattern.Bands, Sizes: row(4, 8, 8, 8)}, []string{"AABBCC"}},
		{"bands meet in one mixed cluster", pattern.Base{Clusters: 5, Rule: pattern.Bands, Sizes: row(4, 10, 10)},
			[]string{"AA?BB"}},
		{"bands of two columns", pattern.Base{Clusters: 8, Strands: 2, Rule: pattern.Bands, Sizes: row(4, 16, 16)},
			[]string{"AABBAABB"}},
		{"bands of two sizes change together", pattern.Base{Clusters: 6, Rule: pattern.Bands,
			Sizes: []pattern.Size{{4, []int{8, 16}}, {2, []int{4, 8}}}}, []string{"AABBBB", "AABBBB"}},
		{"single alternates", pattern.Base{Clusters: 8, Rule: pattern.Single, Sizes: row(4, 16, 16)}, []string{"ABABABAB"}},
		{"single on a wall is a chessboard",
			pattern.Base{Clusters: 9, Strands: 3, Joined: true, Rule: pattern.Single, Sizes: row(1, 5, 4)},
			[]string{"ABABABABA"}},
		{"single has another colour in the size that lacks one", pattern.Base{Clusters: 2, Rule: pattern.Single,
			Sizes: []pattern.Size{{4, []int{8, 0}}, {2, []int{2, 2}}}}, []string{"AA", "AB"}},
		{"a single balloon to a cluster", pattern.Base{Clusters: 4, Rule: pattern.Scattered, Sizes: row(1, 2, 2)},
			[]string{"ABAB"}},
		{"more colours than balloons", pattern.Base{Clusters: 2, Rule: pattern.Bands, Sizes: row(1, 0, 1, 0, 1, 0)},
			[]string{"BD"}},
		{"one colour", pattern.Base{Clusters: 3, Rule: pattern.Fade, Sizes: row(4, 12)}, []string{"AAA"}},
		{"a fade of one balloon a cluster", pattern.Base{Clusters: 6, Rule: pattern.Fade, Sizes: row(1, 3, 3)},
			[]string{"AABABB"}},
		{"no clusters", pattern.Base{Rule: pattern.Rings, Sizes: row(4, 0, 0)}, []string{""}},
	} {
		t.Run(c.name, func(t *testing.T) {
			laid := lay(t, c.base)
			for i, want := range c.sizes {
				assert.Equal(t, want, letters(laid, i))
			}
		})
	}
}

func TestFade(t *testing.T) {
	laid := lay(t, pattern.Base{Clusters: 8, Rule: pattern.Fade, Sizes: row(4, 16, 16)})
	var first []int
	for _, k := range laid.Sequence {
		first = append(first, laid.Kinds[k].Of[0][0])
	}
	// The share sinks in a straight line from 1 to 0: 3.75, 3.25, 2.75 ... 0.25 balloons; sums rounded half up.
	assert.Equal(t, []int{4, 3, 3, 2, 2, 1, 1, 0}, first)
}

func TestSpiralKeepsItsStripes(t *testing.T) {
	laid := lay(t, pattern.Base{Clusters: 6, Strands: 2, Rule: pattern.Spiral, Sizes: row(4, 12, 9, 3)})
	// Two stripes of the first colour, one of the second, and one that changes half-way up both columns.
	assert.Equal(t, []int{0, 0, 1, 1, 0, 0, 1, 1, 0, 0, 1, 2, 0, 0, 1, 1, 0, 0, 1, 2, 0, 0, 1, 2}, laid.Slots[0])
}

// TestColumnsAreAlike checks that layers differ between strands only by what cannot be shared out.
func TestColumnsAreAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBase(t)
		b.Rule = rapid.SampledFrom([]pattern.Rule{pattern.Scattered, pattern.Single, pattern.Rings}).Draw(t, "alike")
		b.Joined = b.Joined && b.Rule == pattern.Rings
		laid, over, mixed := lay(t, b), 0, 0
		for _, kind := range laid.Kinds {
			over += kind.Count % b.Strands
		}
		height := b.Clusters / b.Strands
		for h := range height {
			for s := 1; s < b.Strands; s++ {
				if laid.Sequence[s*height+h] != laid.Sequence[h] {
					mixed++
					break
				}
			}
		}
		assert.LessOrEqual(t, mixed, over/b.Strands)
	})
}

func TestRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		base pattern.Base
		want error
	}{
		{"no rule", pattern.Base{Clusters: 1}, pattern.ErrRule},
		{"negative clusters", pattern.Base{Clusters: -1, Rule: pattern.Rings}, pattern.ErrClusters},
		{"uneven strands", pattern.Base{Clusters: 3, Strands: 2, Rule: pattern.Rings}, pattern.ErrClusters},
		{"too many", pattern.Base{Clusters: 1_000_000, Rule: pattern.Rings, Sizes: row(2, 2_000_000)}, pattern.ErrClusters},
		{"an overflow", pattern.Base{Clusters: 1 << 62, Rule: pattern.Rings, Sizes: row(4, 0)}, pattern.ErrClusters},
		{"too few balloons", pattern.Base{Clusters: 2, Rule: pattern.Rings, Sizes: row(4, 4, 3)}, pattern.ErrSum},
		{"too many balloons", pattern.Base{Clusters: 2, Rule: pattern.Rings, Sizes: row(4, 4, 5)}, pattern.ErrSum},
		{"a negative colour", pattern.Base{Clusters: 2, Rule: pattern.Rings, Sizes: row(4, 9, -1)}, pattern.ErrSum},
		{"no balloon of a size", pattern.Base{Clusters: 2, Rule: pattern.Rings, Sizes: row(0, 0)}, pattern.ErrSize},
		{"a size too large", pattern.Base{Clusters: 1, Rule: pattern.Rings, Sizes: row(251, 251)}, pattern.ErrSize},
		{"one kind", pattern.Base{Clusters: 2, Rule: pattern.Rings, MostKinds: 1}, pattern.ErrKinds},
		{"seven kinds", pattern.Base{Clusters: 2, Rule: pattern.Rings, MostKinds: 7}, pattern.ErrKinds},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := pattern.Lay(c.base)
			assert.ErrorIs(t, err, c.want)
		})
	}
}

var rules = []pattern.Rule{
	pattern.Scattered, pattern.Spiral, pattern.Rings, pattern.Bands, pattern.Fade, pattern.Single,
}

func drawBase(t *rapid.T) pattern.Base {
	b := pattern.Base{
		Strands:   rapid.IntRange(1, 4).Draw(t, "strands"),
		Joined:    rapid.Bool().Draw(t, "joined"),
		Rule:      rapid.SampledFrom(rules).Draw(t, "rule"),
		MostKinds: rapid.IntRange(2, 6).Draw(t, "kinds"),
	}
	b.Clusters = b.Strands * rapid.IntRange(0, 40).Draw(t, "height")
	for range rapid.IntRange(0, 4).Draw(t, "sizes") {
		size := pattern.Size{
			Each:    rapid.SampledFrom([]int{1, 2, 3, 4, 6, 8, 12, 64}).Draw(t, "each"),
			Colours: make([]int, rapid.IntRange(1, 8).Draw(t, "colours")),
		}
		left := size.Each * b.Clusters
		for c := range size.Colours[1:] {
			size.Colours[c] = rapid.IntRange(0, left).Draw(t, "balloons")
			left -= size.Colours[c]
		}
		size.Colours[len(size.Colours)-1] = left
		b.Sizes = append(b.Sizes, size)
	}
	return b
}

// TestLaws checks every rule: exact counts, and kinds, sequence and slots that agree.
func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBase(t)
		laid := lay(t, b)
		assert.Equal(t, laid, lay(t, b), "the same again")
		require.Len(t, laid.Sequence, b.Clusters)
		uses := make([]int, len(laid.Kinds))
		for _, k := range laid.Sequence {
			uses[k]++
		}
		for k, kind := range laid.Kinds {
			assert.Equal(t, uses[k], kind.Count)
			assert.Positive(t, kind.Count)
			for before := range k {
				assert.NotEqual(t, laid.Kinds[before].Of, kind.Of, "two kinds are the same")
			}
		}
		wrapped := 1
		for i, size := range b.Sizes {
			require.Len(t, laid.Slots[i], size.Each*b.Clusters)
			sums := make([]int, len(size.Colours))
			for at, k := range laid.Sequence {
				have := make([]int, len(size.Colours))
				for _, c := range laid.Slots[i][at*size.Each : (at+1)*size.Each] {
					have[c]++
					sums[c]++
				}
				assert.Equal(t, laid.Kinds[k].Of[i], have)
			}
			assert.Equal(t, size.Colours, sums)
			wrapped += len(size.Colours) - 1
		}
		if b.Rule == pattern.Scattered || b.Rule == pattern.Spiral {
			assert.LessOrEqual(t, len(laid.Kinds), wrapped)
		}
	})
}

// TestLineLaws checks what the rules promise of one size: the order of the colours, and few mixed clusters.
func TestLineLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBase(t)
		b.Strands = 1
		if len(b.Sizes) == 0 {
			return
		}
		b.Sizes = b.Sizes[:1]
		size, mixed := b.Sizes[0], 0
		colours, over := 0, 0
		for _, n := range size.Colours {
			over += n % size.Each
			if n > 0 {
				colours++
			}
		}
		laid := lay(t, b)
		least := make([]int, len(size.Colours)) // of a colour and those before it, in any cluster so far
		for c := range least {
			least[c] = size.Each
		}
		for _, k := range laid.Sequence {
			sum, used := 0, 0
			for c, n := range laid.Kinds[k].Of[0] {
				if sum += n; n > 0 {
					used++
				}
				if b.Rule == pattern.Bands {
					assert.LessOrEqual(t, sum, least[c], "a band comes back")
				}
				if b.Rule == pattern.Fade {
					assert.LessOrEqual(t, sum, least[c]+1, "a share rises by more than rounding")
				}
				least[c] = min(least[c], sum)
			}
			if used > 1 {
				mixed++
			}
		}
		switch b.Rule {
		case pattern.Bands:
			assert.LessOrEqual(t, mixed, max(colours-1, 0))
		case pattern.Rings, pattern.Single:
			assert.Equal(t, over/size.Each, mixed, "fewer clusters could be mixed")
		}
	})
}

// TestStripes checks that colours change along a stripe no oftener than by the wrap-around rule.
func TestStripes(t *testing.T) {
	for _, colours := range [][]int{{2, 8, 5}, {1, 12, 2}, {4, 6, 5}, {0, 7, 8}} {
		assertStripes(t, pattern.Base{Clusters: 5, Strands: 1, Rule: pattern.Spiral, MostKinds: 4,
			Sizes: []pattern.Size{{Each: 3, Colours: colours}}})
	}
	rapid.Check(t, func(t *rapid.T) {
		b := drawBase(t)
		b.Strands, b.Rule = 1, pattern.Spiral
		assertStripes(t, b)
	})
}

// assertStripes checks that a place of a cluster changes its colour only where a colour ends that is no whole stripe.
func assertStripes(t rapid.TB, b pattern.Base) {
	t.Helper()
	laid := lay(t, b)
	for i, size := range b.Sizes {
		changes, parted := 0, 0
		for _, n := range size.Colours {
			if b.Clusters > 0 && n%b.Clusters > 0 {
				parted++
			}
		}
		for at := size.Each; at < len(laid.Slots[i]); at++ {
			if laid.Slots[i][at] != laid.Slots[i][at-size.Each] {
				changes++
			}
		}
		assert.LessOrEqual(t, changes, max(parted-1, 0), "%v", size.Colours)
	}
}
