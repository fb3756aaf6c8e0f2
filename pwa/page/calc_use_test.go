package page_test

import (
	"net/url"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// calculate opens a calculator with typed inputs, in metric units.
func (v *visitor) calculate(name string, pairs ...string) *visitor {
	query := url.Values{"units": {"metric"}}
	for i := 0; i < len(pairs); i += 2 {
		query.Set(pairs[i], pairs[i+1])
	}
	v.visit("/calc/" + name + "?" + query.Encode())
	require.Equal(v.t, 200, v.reply.Status, v.text())
	return v
}

func TestUseAResultInAPiece(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	v.calculate("clusters", "length", "7 m", "recipe", "4x11@10").submit("#use-demo-door", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	door, _ := v.current().Piece("door")
	assert.Equal(t, 7000.0, door.LengthMM)
	assert.Equal(t, "typed", door.Line)
	assert.Equal(t, "4x11@10", door.Recipe.String())

	v.calculate("clusters", "length", "7 m", "recipe", "4x11@10").submit("#use-demo-ring", nil)
	ring, _ := v.current().Piece("ring")
	assert.Equal(t, "4x11@10", ring.Recipe.String())

	v.calculate("outline", "shape", "hoop", "diameter", "1.9 m").submit("#use-demo-ring", nil)
	ring, _ = v.current().Piece("ring")
	assert.Equal(t, 1900.0, ring.DiameterMM)

	v.calculate("match", "recipe", "2x11@10 + 1x18@16", "with", "11@10").submit("#use-demo-ring", nil)
	ring, _ = v.current().Piece("ring")
	assert.Equal(t, "4x11@10", ring.Recipe.String(), "it must use the substitute")

	v.calculate("accents", "length", "7 m", "recipe", "3x11@10", "accent", "2x5@4").submit("#use-demo-door", nil)
	door, _ = v.current().Piece("door")
	assert.Equal(t, "2x5@4", door.AccentRecipe.String())

	reply := pagePost(v, "/jobs/demo/pieces/ring", form.Values{"act": {"use"}, "recipe": {"99x11"}})
	assert.Equal(t, 422, reply.Status)
}

func TestUseAResultInAColumnAndAWall(t *testing.T) {
	w := demo(t)
	for id, kind := range map[string]job.PieceKind{"pole": "column", "photo": "wall"} {
		w.write(job.Author{Role: job.Owner},
			page.Write{Job: "demo", Changes: []job.Change{job.Put("piece/"+id, "name", id), job.Put("piece/"+id, "kind", kind)}})
	}
	v := w.visitor(job.Owner, "Dora")
	v.calculate("column", "height", "1.9 m", "recipe", "2x11@9.5").submit("#use-demo-pole", nil)
	pole, _ := v.current().Piece("pole")
	assert.Equal(t, 1900.0, pole.HeightMM)
	v.calculate("wall", "width", "2.4 m", "height", "2 m", "recipe", "2x11@9.5").submit("#use-demo-photo", nil)
	photo, _ := v.current().Piece("photo")
	assert.Equal(t, []float64{2400, 2000}, []float64{photo.WidthMM, photo.HeightMM})
}

// TestUseMyOwnMeasurement adopts "my own base took 12 clusters in 3.1 m". The job then uses that push and labels it as
// measured, and the calculator offers it from then on.
func TestUseMyOwnMeasurement(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	before := garlandClusters(t, v)
	v.calculate("clusters", "length", "3.1 m", "recipe", "2x11@10 + 1x18@16")
	assert.Contains(t, v.doc.Find("#calc-own").Text(), "common practice")
	assert.Zero(t, v.doc.Find("#own-demo").Length(), "without a measurement there is nothing to adopt")

	v.calculate("clusters", "length", "3.1 m", "recipe", "2x11@10 + 1x18@16", "measured", "15 in 3.1m")
	assert.Contains(t, v.doc.Find("#calc-own").Text(), "measured by you")
	pushed := standing(v.doc.Find("#own-demo")).Get("value.base/push")
	v.submit("#own-demo", nil)
	require.Equal(t, 200, v.reply.Status, v.text())
	held := v.current().Overrides["base/push"]
	require.NotNil(t, held.Value)
	assert.Equal(t, pushed, measure.FormatNumber(*held.Value, 4))
	assert.Greater(t, *held.Value, 1.0, "15 in 3.1 m is a harder push than usual")
	assert.Contains(t, held.Note, "15 in 3.1m")
	assert.Greater(t, garlandClusters(t, v), before, "the counts must follow")

	v.calculate("clusters", "length", "3.1 m", "recipe", "2x11@10 + 1x18@16")
	link, there := v.doc.Find("#calc-own li p a[href^='/calc/clusters?']").Attr("href")
	require.True(t, there, "the job's push must be offered")
	v.visit(link + "&units=metric")
	require.Equal(t, 200, v.reply.Status)
	assert.Contains(t, v.doc.Find("#calc-own").Text(), pushed[:4])
	assert.Contains(t, v.doc.Find("#result").Text(), "15 clusters")

	helper := v.world.visitor(job.Helper, "Bea")
	helper.calculate("clusters", "length", "3.1 m", "recipe", "2x11@10 + 1x18@16", "measured", "15 in 3.1m")
	assert.Zero(t, helper.doc.Find("#calc-own, #calc-uses").Length(), "helpers may not change figures")
}

func garlandClusters(t *testing.T, v *visitor) int {
	t.Helper()
	j, known := v.read("demo")
	require.True(t, known)
	sum := 0
	for _, c := range plan.Make(j).Pieces {
		sum += c.Clusters
	}
	return sum
}
