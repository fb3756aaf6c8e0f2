package plan_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/app/plan"
)

// madeUp adds up the mixes on the door's card: the number of clusters, and balloons by "Colour 11".
func madeUp(text string) (clusters int, balloons map[string]int) {
	balloons = map[string]int{}
	for _, kind := range strings.Split(text, "; ") {
		words := regexp.MustCompile(`^(\d+)(?: clusters?)? of (.*)$`).FindStringSubmatch(strings.TrimSuffix(kind, "."))
		n, _ := strconv.Atoi(words[1])
		clusters += n
		for _, size := range strings.Split(words[2], " and ") {
			inches := regexp.MustCompile(` (\d+)-inch$`).FindStringSubmatch(size)
			for _, part := range strings.Split(strings.TrimSuffix(size, inches[0]), ", ") {
				count, colour, _ := strings.Cut(part, " ")
				each, _ := strconv.Atoi(count)
				balloons[colour+" "+inches[1]] += n * each
			}
		}
	}
	return clusters, balloons
}

// The mixes have whole balloons, and together exactly the balloons that are counted and bought.
func TestClusterMixesSumToTheCounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.IntRange(900, 9000).Draw(t, "length")
		weights := []any{"coral", float64(rapid.IntRange(1, 5).Draw(t, "coral")), "ink",
			float64(rapid.IntRange(1, 5).Draw(t, "ink"))}
		p := plan.Make(made(piece("door", "garland", map[string]any{"length_mm": length, "accents": 0,
			"recipe": rapid.SampledFrom([]string{"2x11@10", "3x11@10", "1x5@4.5 + 2x11@10"}).
				Draw(t, "recipe"),
			"colours": shares(weights...)})...))
		text := ""
		for _, step := range cards(p)["card/make/door"].Steps {
			if _, rest, there := strings.Cut(step, "Mix them like this along the base: "); there {
				text = rest
			}
		}
		require.NotEmpty(t, text)
		for _, part := range strings.SplitAfter(text, "-inch. ") { // one part for all sizes or one for each
			clusters, balloons := madeUp(strings.TrimSpace(part))
			assert.Equal(t, p.Pieces[0].Clusters, clusters, text)
			for _, b := range p.Pieces[0].By {
				name := b.Colour.Name + " " + strconv.Itoa(b.SizeIn)
				if n, there := balloons[name]; there || !strings.Contains(text, "-inch. ") {
					assert.Equal(t, b.Count, n, "%s: %s", name, text)
				}
			}
		}
	})
}

func TestOneColourNeedsNoMix(t *testing.T) {
	p := plan.Make(garland(3000))
	assert.NotContains(t, strings.Join(cards(p)["card/make/door"].Steps, "\n"), "Mix them")
}
