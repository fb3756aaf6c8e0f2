package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// What carries a piece is put up once: on a card of the kit's, or first on the piece's own card. The take-down
// likewise.
func TestWhatCarriesAPieceIsPutUpOnce(t *testing.T) {
	columns := piece("x", "column", map[string]any{"height_mm": 1800, "count": 4, "recipe": "2x11@9", "accents": 0,
		"colours": shares("coral", 1.0)})
	digits := piece("x", "numbers", map[string]any{"digits": "75", "height_mm": 1000, "size_in": 5, "to_in": 4.5,
		"colours": shares("coral", 1.0)})
	wall := piece("x", "wall", map[string]any{"width_mm": 2400, "height_mm": 1800, "recipe": "2x11@9.5", "accents": 0,
		"colours": shares("coral", 1.0)})
	for _, row := range []struct {
		name, kind, first string
		changes           []job.Change
		last              string // step of the take-down
	}{
		{"columns", "pole", "Foot first, then the pole.", columns, "Take poles and feet apart."},
		{"digits", "digits", "Put each digit", digits, "Take the frames apart."},
		{"a wall", "frame", "Two of you: first put up the frame or net", wall, "Take the frame or net down"},
	} {
		t.Run(row.name, func(t *testing.T) {
			own := cards(plan.Make(made(row.changes...)))
			named := append(row.changes, standsOn(row.kind, job.Put("piece/x", "frame", "s"))...)
			kit := cards(plan.Make(made(named...)))
			assert.Contains(t, kit, "card/frame/s")
			assert.NotContains(t, own, "card/frame/s")
			up, down := own["card/fix/x"], own["card/down/x"]
			assert.True(t, strings.HasPrefix(up.Steps[0], row.first), up.Steps)
			assert.NotContains(t, strings.Join(kit["card/fix/x"].Steps, " "), row.first)
			assert.Contains(t, down.Steps[len(down.Steps)-1], row.last)
			assert.NotContains(t, strings.Join(kit["card/down/x"].Steps, " "), row.last)
		})
	}
}

// Only what hangs is lowered, and a frame's feet are weighed down in one step, after the posts are set.
func TestStepsAreInOrderAndTrue(t *testing.T) {
	tables := piece("x", "tables", map[string]any{"count": 10, "each": 6, "size_in": 5, "to_in": 4.5,
		"colours": shares("coral", 1.0)})
	assert.NotContains(t, cards(plan.Make(made(tables...)))["card/down/x"].Steps[0], "lower it")
	on := standsOn("frame", job.Put("kit/s", "width_mm", 2000), job.Put("kit/s", "height_mm", 2200),
		job.Put("piece/door", "frame", "s"))
	c := cards(plan.Make(garland(3048, on...)))
	assert.Contains(t, c["card/down/door"].Steps[0], "lower it")
	steps := strings.Join(c["card/frame/s"].Steps, " ")
	assert.Less(t, strings.Index(steps, "Set the posts"), strings.Index(steps, "on the feet"))
	assert.NotContains(t, steps, "Weigh down the feet")
}
