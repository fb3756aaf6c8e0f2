package plan_test

import (
	"encoding/json"
	"fmt"
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/task"
)

// anyValue draws a value for a field, from its whole range.
func anyValue(t *rapid.T, f job.Field, colours, kit []string) any {
	label := f.Name
	switch f.Kind {
	case job.OneOf:
		return rapid.SampledFrom(f.Choices).Draw(t, label).Value
	case job.Flag:
		return rapid.IntRange(0, 9).Draw(t, label) == 0
	case job.Length, job.SmallLength, job.Temperature, job.Mass, job.Number:
		if f.Name == "order" {
			return rapid.IntRange(-5, 5).Draw(t, label)
		}
		return rapid.OneOf(rapid.Float64Range(f.Min, f.Max), rapid.SampledFrom([]float64{f.Min, f.Max})).Draw(t, label)
	case job.Whole:
		return rapid.IntRange(int(f.Min), int(f.Max)).Draw(t, label)
	case job.PointInTime:
		return fmt.Sprintf("2027-05-%02dT%02d:00", rapid.IntRange(7, 9).Draw(t, label), rapid.IntRange(0, 23).Draw(t, label))
	case job.Recipe:
		return rapid.SampledFrom([]string{"", "2x11@9.5", "3x11@10", "2x11@10 + 1x18@16", "2x5@4.5", "1x36@33",
			"4x5@2 + 1x24@22 + 2x16@14", "8x12@12"}).
			Draw(t, label)
	case job.SizeList:
		return rapid.SliceOfN(rapid.SampledFrom(job.Sizes[:]), 1, 4).Draw(t, label)
	case job.Shares:
		n := rapid.IntRange(0, 4).Draw(t, label)
		list := make([]job.Share, n)
		for i := range list {
			list[i] = job.Share{Colour: rapid.SampledFrom(colours).Draw(t, label),
				Weight: rapid.SampledFrom([]float64{0, 0.001, 1, 2, 3, 1000}).Draw(t, label)}
		}
		return list
	case job.TypedCounts:
		n := rapid.IntRange(0, 3).Draw(t, label)
		list := make([]job.TypedCount, n)
		for i := range list {
			list[i] = job.TypedCount{SizeIn: rapid.SampledFrom(job.Sizes[:]).Draw(t, label),
				ToIn:   rapid.SampledFrom([]float64{0, 4, 10, 60}).Draw(t, label),
				Colour: rapid.SampledFrom(colours).Draw(t, label), Count: rapid.SampledFrom([]int{0, 1, 7, 10000}).Draw(t, label)}
		}
		return list
	case job.Lengths:
		return rapid.SliceOfN(rapid.SampledFrom([]float64{100, 1400, 9000}), 0, 3).Draw(t, label)
	case job.Reference:
		return rapid.SampledFrom(append([]string{""}, kit...)).Draw(t, label)
	case job.Text, job.LongText:
		return rapid.SampledFrom([]string{"", "40", "Light sign", "Linen cloth", "<b>&\"'", "🎈 \u202ex"}).Draw(t, label)
	}
	return nil
}

// anyChanges draws the changes of a job: entities with some of their fields set, some removed, and progress on keys
// that exist and keys that do not.
func anyChanges(t *rapid.T) []job.Change {
	colours, kit := []string{"a", "b", "c", "gone"}, []string{"k", "l", "gone"}
	var changes []job.Change
	fill := func(noun, entity string) {
		n, _ := job.FindNoun(entity)
		for _, f := range n.Fields {
			if !f.Required && rapid.IntRange(0, 3).Draw(t, "unset "+f.Name) == 0 {
				continue
			}
			if value := anyValue(t, f, colours, kit); value != nil && f.Check(mustJSON(value)) == nil {
				changes = append(changes, job.Put(entity, f.Name, value))
			} else if f.Required && f.Default == "" {
				changes = append(changes, job.Put(entity, f.Name, "x"))
			}
		}
	}
	fill("brief", "brief")
	for _, id := range colours[:3] {
		fill("colour", "colour/"+id)
	}
	for _, id := range kit[:2] {
		fill("kit", "kit/"+id)
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "members") {
		fill("member", fmt.Sprintf("member/m%d", i))
	}
	for i := range rapid.IntRange(0, 5).Draw(t, "pieces") {
		fill("piece", fmt.Sprintf("piece/p%d", i))
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "layers") {
		entity := fmt.Sprintf("layer/y%d", i)
		fill("layer", entity)
		changes = append(changes, job.Put(entity, "piece", rapid.SampledFrom([]string{"p0", "p1", "p4"}).Draw(t, "on")))
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "added") {
		fill("added", fmt.Sprintf("added/x%d", i))
	}
	all := figures.All()
	for range rapid.IntRange(0, 4).Draw(t, "overrides") {
		f := rapid.SampledFrom(all).Draw(t, "figure")
		changes = append(changes,
			job.Put("override/"+f.Key, "value", rapid.SampledFrom([]float64{0, f.Min, f.Max, 1e6}).Draw(t, "value")))
	}
	for range rapid.IntRange(0, 4).Draw(t, "done") {
		key := rapid.SampledFrom([]string{"pack/latex/11/a", "pack/tie/260", "pack/kit/k", "pack/x", "pack/",
			"pack/added/x0"}).
			Draw(t, "line")
		changes = append(changes, job.Put(key, "have", rapid.IntRange(0, 200).Draw(t, "have")))
		key = rapid.SampledFrom([]string{"card/make/p0", "card/fix/p1", "card/pack", "card/make/gone", "card/",
			"card/added/x1"}).
			Draw(t, "card")
		changes = append(changes, job.Count(key, int64(rapid.IntRange(1, 90).Draw(t, "made"))), job.Put(key, "done", true))
		if rapid.IntRange(0, 3).Draw(t, "own minutes") == 0 {
			changes = append(changes, job.Put(key, "minutes", rapid.IntRange(0, 20).Draw(t, "minutes")))
		}
	}
	return changes
}

func mustJSON(v any) json.RawMessage {
	raw, err := json.Marshal(v)
	if err != nil {
		panic(err) // the drawn values always encode
	}
	return raw
}

func TestAnyJobHasAConsistentPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := job.Preview(anyChanges(t))
		design := plan.Design(j)
		before := jsonOf(t, design)
		p := plan.Progress(j, design)
		if jsonOf(t, design) != before {
			t.Fatalf("progress changed the design")
		}
		if jsonOf(t, plan.Make(j)) != jsonOf(t, p) {
			t.Fatalf("the same job gave two plans")
		}
		checkCounts(t, p)
		checkKeys(t, p)
		checkWork(t, p)
	})
}

func jsonOf(t *rapid.T, p plan.Plan) string {
	data, err := json.Marshal(p)
	if err != nil {
		t.Fatalf("a plan holds no NaN and no infinity: %v", err)
	}
	return string(data)
}

type sizeColour struct {
	size   int
	colour string
}

func checkCounts(t *rapid.T, p plan.Plan) {
	need, ties := map[sizeColour]int{}, 0
	for _, c := range p.Pieces {
		sum, inSections := 0, 0
		for _, b := range c.By {
			if b.Count <= 0 {
				t.Fatalf("%s: a row of %d balloons", c.Piece.ID, b.Count)
			}
			sum += b.Count
			need[sizeColour{b.SizeIn, b.Colour.ID}] += b.Count
		}
		for _, s := range c.Sections {
			if s.Clusters < 1 {
				t.Fatalf("%s: a section of %d clusters", c.Piece.ID, s.Clusters)
			}
			inSections += s.Clusters
		}
		checkOn(t, &c)
		if sum != c.Balloons {
			t.Fatalf("%s: rows sum to %d, not %d", c.Piece.ID, sum, c.Balloons)
		}
		if len(c.Sections) > 0 && inSections != c.Clusters {
			t.Fatalf("%s: sections hold %d clusters of %d", c.Piece.ID, inSections, c.Clusters)
		}
		if c.Duplets*2 > c.Balloons {
			t.Fatalf("%s: %d duplets of %d balloons", c.Piece.ID, c.Duplets, c.Balloons)
		}
		ties += c.Ties
	}
	if ties != p.Ties {
		t.Fatalf("ties: %d in pieces, %d in all", ties, p.Ties)
	}
	for _, b := range p.Balloons {
		at := sizeColour{b.SizeIn, b.Colour.ID}
		inPieces := 0
		for _, s := range b.Pieces {
			inPieces += s.Count
		}
		if b.Need != need[at] || inPieces != b.Need || b.Buy != b.Need+b.Spares || b.Spares < 0 {
			t.Fatalf("%s: need %d, %d in its pieces, %d counted; buy %d with %d spares", b.Key, b.Need, inPieces, need[at],
				b.Buy, b.Spares)
		}
		delete(need, at)
	}
	if len(need) > 0 {
		t.Fatalf("in pieces but not to buy: %v", need)
	}
}

// checkOn checks that the base and what is on it make the piece, size by size and colour by colour, and that the
// clusters of each layer are its balloons.
func checkOn(t *rapid.T, c *count.PieceCount) {
	left, balloons, ties := map[sizeColour]int{}, c.BaseBalloons(), 0
	for _, b := range c.By {
		left[sizeColour{b.SizeIn, b.Colour.ID}] += b.Count
	}
	for i := range c.Laid.Kinds {
		for _, b := range c.Laid.Kinds[i].By {
			left[sizeColour{b.SizeIn, b.Colour.ID}] -= b.Count * c.Laid.Kinds[i].Clusters
		}
	}
	for _, on := range c.On() {
		inKinds := 0
		for _, k := range on.Laid.Kinds {
			for _, b := range k.By {
				inKinds += b.Count * k.Clusters
			}
		}
		sum := 0
		for _, b := range on.By {
			left[sizeColour{b.SizeIn, b.Colour.ID}] -= b.Count
			sum += b.Count
		}
		if sum != on.Balloons || inKinds != sum || len(on.Laid.Sequence) != on.Clusters {
			t.Fatalf("%s, %s: %d balloons, %d by colour, %d in kinds; %d clusters of %d", c.Piece.ID, on.Name, on.Balloons, sum,
				inKinds, len(on.Laid.Sequence), on.Clusters)
		}
		balloons, ties = balloons+on.Balloons, ties+on.Ties
	}
	if balloons != c.Balloons || ties > c.Ties {
		t.Fatalf("%s: %d balloons of %d, %d ties of %d", c.Piece.ID, balloons, c.Balloons, ties, c.Ties)
	}
	for at, n := range left {
		if n != 0 && len(c.Laid.Kinds) > 0 {
			t.Fatalf("%s: %d of %v too many", c.Piece.ID, n, at)
		}
	}
}

func checkKeys(t *rapid.T, p plan.Plan) {
	seen := map[string]bool{}
	once := func(key string) {
		if seen[key] {
			t.Fatalf("the key %q is used twice", key)
		}
		seen[key] = true
		if len(key) > job.MaxEntityBytes {
			t.Fatalf("the key %q is too long for an operation", key)
		}
	}
	for _, b := range p.Pack {
		once(b.Key)
		for _, l := range b.Lines {
			once(l.Key)
			if err := job.CheckChange(job.Put(l.Key, "have", 1)); err != nil {
				t.Fatalf("%s cannot be packed: %v", l.Key, err)
			}
			if l.Need == 0 && l.Have == 0 || l.Name == "" && l.Key != "pack/" {
				t.Fatalf("an empty line %+v", l)
			}
		}
	}
	for _, c := range p.Cards {
		once(c.Key)
	}
	for _, n := range p.Notes {
		if n.Key != "" {
			once("choice/" + n.Key)
		}
		if n.Text == "" || n.Key != "" && len(n.Options) == 0 {
			t.Fatalf("a note without text or options: %+v", n)
		}
	}
	for _, f := range p.Figures {
		if f.Label == "" || f.Source.Mark == "" || f.Value < f.Min || f.Value > f.Max {
			t.Fatalf("a figure without label or mark, or out of its range: %+v", f)
		}
	}
}

func checkWork(t *rapid.T, p plan.Plan) {
	at := map[string]int{}
	for i, c := range p.Cards {
		at[c.Key] = i
		if c.HandsMin < 1 && !c.Gone || c.HandsMax < c.HandsMin || c.Made < 0 || c.Count < 0 {
			t.Fatalf("an invalid card: %+v", c)
		}
		if !c.Gone && (c.Minutes <= 0 || c.MinutesBy["beginner"] <= 0 || c.MinutesBy["practised"] <= 0) {
			t.Fatalf("%s takes no time: %v, %v", c.Key, c.Minutes, c.MinutesBy)
		}
		if !c.Gone && (c.Title == "" || len(c.Steps) == 0 && len(c.Key) > 0 && c.Key[:min(11, len(c.Key))] != "card/added/") {
			t.Fatalf("%s: no title or no steps", c.Key)
		}
	}
	order := map[string]int{string(task.Home): 0, string(task.Load): 1, string(task.Site): 2, string(task.TakeDown): 3}
	for i, c := range p.Cards {
		if i > 0 && order[string(c.Place)] < order[string(p.Cards[i-1].Place)] {
			t.Fatalf("%s follows a later place", c.Key)
		}
		for _, key := range task.Keys(c.After) {
			before, there := at[key]
			if !there || before >= i {
				t.Fatalf("%s waits for %s, which is not before it", c.Key, key)
			}
		}
	}
	for _, c := range p.Pieces {
		for _, key := range []string{c.MakeKey, c.FixKey} {
			if _, there := at[key]; key != "" && !there {
				t.Fatalf("%s: no card %s", c.Piece.ID, key)
			}
		}
	}
}

// A longer, wider, higher or fuller piece never has smaller counts.
func TestCountsNeverFallWhenAPieceGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := func(label string) []int {
			return rapid.SliceOfNDistinct(rapid.SampledFrom(job.Sizes[:]), 1, 5, rapid.ID[int]).Draw(t, label)
		}
		base := []job.Change{}
		for i, id := range []string{"a", "b", "c"} {
			base = append(base, job.Put("colour/"+id, "name", id), job.Put("colour/"+id, "sizes", sizes(id)),
				job.Put("colour/"+id, "order", i))
		}
		weights := rapid.SliceOfN(rapid.Float64Range(0.01, 9), 3, 3).Draw(t, "weights")
		grow := rapid.SampledFrom([][]string{{"garland", "typed", "length_mm"}, {"garland", "arc", "height_mm"},
			{"garland", "arch", "height_mm"}, {"hoop", "typed", "diameter_mm"},
			{"hoop", "typed", "part_pct"}, {"column", "typed", "height_mm"}, {"wall", "typed", "height_mm"},
			{"wall", "typed", "width_mm"}}).Draw(t, "what grows")
		most := 12000.0
		if grow[2] == "part_pct" {
			most = 100
		}
		short := rapid.Float64Range(max(1, most/100), most).Draw(t, "short")
		long := rapid.Float64Range(short, most).Draw(t, "long")
		recipeText := rapid.SampledFrom([]string{"2x11@9.5", "3x11@10", "2x11@10 + 1x18@16", "1x5@4.5", "2x24@22 + 1x9@8",
			"1x16@14 + 1x12@10 + 1x5@4"}).
			Draw(t, "recipe")
		built := rapid.SampledFrom([]string{"home", "site"}).Draw(t, "built")
		count := func(size float64) count.PieceCount {
			fields := map[string]any{"line": grow[1], "recipe": recipeText, "built": built,
				"colours": shares("a", weights[0], "b", weights[1], "c", weights[2])}
			fields[grow[2]] = size
			p := plan.Make(job.Preview(append(append([]job.Change{}, base...), piece("door", grow[0], fields)...)))
			return p.Pieces[0]
		}
		less, more := count(short), count(long)
		if less.Clusters > more.Clusters || less.Duplets > more.Duplets || less.Balloons > more.Balloons ||
			less.Ties > more.Ties ||
			less.Accents > more.Accents {
			t.Fatalf("%v from %v to %v: clusters %d to %d, duplets %d to %d, balloons %d to %d, ties %d to %d", grow, short,
				long, less.Clusters, more.Clusters, less.Duplets, more.Duplets, less.Balloons, more.Balloons, less.Ties, more.Ties)
		}
	})
}

func TestColoursSplitExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := []string{"a", "b", "c", "d"}
		weights := rapid.SliceOfN(rapid.Float64Range(0.1, 10), 4, 4).Draw(t, "weights")
		total := rapid.IntRange(4, 3000).Draw(t, "balloons")
		var changes []job.Change
		var list []job.Share
		sum := 0.0
		for i, id := range ids {
			changes = append(changes, job.Put("colour/"+id, "name", id))
			list = append(list, job.Share{Colour: id, Weight: weights[i]})
			sum += weights[i]
		}
		each := min(total, 500)
		n := total / each
		changes = append(changes, piece("desk", "tables", map[string]any{"count": n, "each": each, "colours": list})...)
		c := plan.Make(job.Preview(changes)).Pieces[0]
		got := 0
		for i, id := range ids {
			n := ofSize(c, id, 11)
			if n == 0 {
				t.Fatalf("%s has weight %v but no balloon of %d", id, weights[i], c.Balloons)
			}
			if share := float64(c.Balloons) * weights[i] / sum; n > 1 && math.Abs(float64(n)-share) > 4 {
				t.Fatalf("%s: %d of a share of %v", id, n, share)
			}
			got += n
		}
		if got != n*each {
			t.Fatalf("%d of %d balloons have a colour", got, n*each)
		}
	})
}

func keysOf(p plan.Plan) []string {
	var keys []string
	for _, b := range p.Pack {
		for _, l := range b.Lines {
			keys = append(keys, fmt.Sprint(l.Key, " ", l.Need))
		}
	}
	for _, c := range p.Cards {
		keys = append(keys, fmt.Sprint(c.Key, " ", c.Count))
	}
	sort.Strings(keys)
	return keys
}

func TestKeysStayWhenPiecesMove(t *testing.T) {
	j := readJob(t, "reading-room")
	before := keysOf(plan.Make(j))
	for i, k := 0, len(j.Pieces)-1; i < k; i, k = i+1, k-1 {
		j.Pieces[i], j.Pieces[k] = j.Pieces[k], j.Pieces[i]
	}
	assert.Equal(t, before, keysOf(plan.Make(j)))
	for i := range j.Pieces {
		j.Pieces[i].Name = "another name"
	}
	assert.Equal(t, before, keysOf(plan.Make(j)), "a key means the thing, not its name")
}

func TestHostileJobs(t *testing.T) {
	j := readJob(t, "hostile")
	p := plan.Make(j)
	asJSON(t, p)
	all := cards(p)
	for _, key := range []string{"card/make/gone", "card/never/heard/of"} {
		assert.True(t, all[key].Gone, key)
	}
	assert.Equal(t, -12, packLines(p)["pack/latex/99/gone"].More())
	require.Len(t, p.Pieces, len(j.Pieces))
}
