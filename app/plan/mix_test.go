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

// madeUp adds up the kinds on a card: the number of clusters, and balloons by "Colour 11".
func madeUp(text string) (clusters int, balloons map[string]int) {
	balloons = map[string]int{}
	for _, kind := range strings.Split(strings.TrimSuffix(text, "."), ". ") {
		words := regexp.MustCompile(`^(?:(\d+) x [A-Z]+: )?(.*)$`).FindStringSubmatch(kind)
		n, err := strconv.Atoi(words[1])
		if err != nil {
			n = -1 // each cluster
		}
		clusters += n
		for _, size := range strings.Split(words[2], "; ") {
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

// The kinds of cluster on a card have whole balloons, and together exactly those that are counted and bought.
func TestKindsOnTheCardSumToTheCounts(t *testing.T) {
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
			for _, start := range []string{"Make each kind as often as it says. ", "Colours of each cluster: "} {
				if _, rest, there := strings.Cut(step, start); there {
					text = rest
				}
			}
		}
		require.NotEmpty(t, text)
		clusters, balloons := madeUp(text)
		made := p.Pieces[0].Clusters
		if clusters < 0 {
			clusters, made = 1, 1
			for name := range balloons {
				balloons[name] *= -p.Pieces[0].Clusters
			}
		}
		assert.Equal(t, made, clusters, text)
		for _, b := range p.Pieces[0].By {
			name := b.Colour.Name + " " + strconv.Itoa(b.SizeIn)
			assert.Equal(t, b.Count, balloons[name], "%s: %s", name, text)
		}
	})
}

// The order on the card for joining has every cluster of every kind once.
func TestTheOrderOnTheCardHasEveryCluster(t *testing.T) {
	p := plan.Make(made(piece("door", "garland", map[string]any{"length_mm": 7000, "accents": 0, "recipe": "2x11@10",
		"colours": shares("coral", 3.0, "ink", 2.0, "sand", 2.0)})...))
	laid, got := p.Pieces[0].Laid, map[string]int{}
	for _, step := range cards(p)["card/join/door"].Steps {
		_, order, there := strings.Cut(step, "from its start: ")
		if !there {
			continue
		}
		words := strings.Fields(strings.TrimSuffix(order, "."))
		for i, word := range words {
			switch n, err := strconv.Atoi(word); {
			case word == "x":
			case err == nil:
				got[words[i+2]] += n - 1
			default:
				got[word]++
			}
		}
	}
	want := map[string]int{}
	for _, k := range laid.Kinds {
		want[k.Name] = k.Clusters
	}
	require.Greater(t, len(want), 1)
	assert.Equal(t, want, got)
}
