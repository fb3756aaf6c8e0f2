package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestARecipeByTapsInTheBrowser builds 2x11@10 + 1x18@16 from the usual garland by taps alone. The picture, the text
// and the count of the piece follow each tap.
func TestARecipeByTapsInTheBrowser(t *testing.T) { inEngines(t, recipeByTaps) }

func recipeByTaps(t *testing.T, start func() *phone) {
	server := startServer(t, t.TempDir(), "", true)
	owner := start()
	job := owner.firstJob(server)
	owner.open(server.address + job + "/pieces/new?kind=garland")
	owner.ready()
	recipe := `document.querySelector('#edit-piece [name=recipe]').value`
	owner.until(recipe + ` === '3x11@10'`)
	count := owner.text(`document.querySelector('#recount .big b').innerText`)
	balloons := `document.querySelectorAll('#f-recipe-builder .recipehead circle').length`
	assert.Equal(t, "6", owner.text(balloons))
	owner.tap(`#f-recipe-builder [name="recipe.sizes"][value="18"]`)
	owner.until(recipe + ` === '3x11@10 + 1x18@16'`)
	assert.Equal(t, "8", owner.text(balloons))
	owner.tap(`#f-recipe-builder .recipepart [data-step=down]`)
	owner.until(recipe + ` === '2x11@10 + 1x18@16'`)
	assert.Equal(t, "6", owner.text(balloons))
	owner.until(`document.querySelector('#recount .big b').innerText !== '` + count + `'`)
	owner.shot("recipe")
	owner.tap(`#f-recipe-builder [name="recipe.usual"][value="4x11@10"]`)
	owner.until(recipe + ` === '4x11@10'`)
	owner.fill(`#edit-piece [name=recipe]`, "2x11@10+1x18@16")
	owner.until(`document.querySelector('#f-recipe-builder [name="recipe.sizes"][value="18"]').checked`)
	owner.tap(`#edit-piece button.go`)
	owner.until(`location.pathname.endsWith('/pieces')`)
}
