package cluster

import (
	"fmt"

	"garlandry/calc/nest"
)

// Model relaxes recipes with calc/nest itself instead of answering from the
// table, and keeps what it found. It is for looking closer at one recipe, not
// for plans: a first answer takes 30 ms for quads to 500 ms for clusters of
// sixteen on one core, and may differ by a few percent from Measure where that
// interpolates. A Model belongs to its caller; it is not safe to share between
// goroutines.
type Model struct {
	kept map[string]Figures
}

// NewModel is a model that has relaxed nothing yet.
func NewModel() *Model { return &Model{kept: make(map[string]Figures)} }

// Measure gives the figures of a recipe at a push, relaxed. Errors wrap ErrRecipe
// when the recipe cannot be built and nest.ErrSpheres when it cannot be relaxed.
func (m *Model) Measure(r Recipe, p Push) (Figures, error) {
	if err := r.Check(); err != nil {
		return Figures{}, err
	}
	push := heldWithin(p)
	key := fmt.Sprintf("%s push %x", r, push)
	if figures, ok := m.kept[key]; ok {
		return figures, nil
	}
	diameters := r.DiametersMM()
	typical, err := nest.Typical(diameters, push)
	if err != nil {
		return Figures{}, fmt.Errorf("relax a string of %s: %w", r, err)
	}
	free, err := nest.Free(diameters)
	if err != nil {
		return Figures{}, fmt.Errorf("relax a cluster of %s: %w", r, err)
	}
	figures := Figures{PitchMM: typical.PitchMM, GirthMM: typical.GirthMM, BallMM: free.BallMM(), Coverage: typical.Coverage}
	m.kept[key] = figures
	return figures, nil
}

// heldWithin keeps a push to what the curves reach.
func heldWithin(p Push) float64 {
	pushes := nest.Pushes()
	return min(max(p.nest(), pushes[0]), pushes[len(pushes)-1])
}
