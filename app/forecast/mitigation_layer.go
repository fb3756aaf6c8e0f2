package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
)

// ofLayers adds leaving out a layer of a piece.
func (l *mitigationList) ofLayers(piece *job.Piece) {
	for i := range l.job.Layers {
		layer := &l.job.Layers[i]
		its := func(t *crew.Task) bool {
			return t.Key == task.FamilyLayer.Of(layer.ID).Key() || t.Key == task.FamilyGrow.Of(layer.ID).Key()
		}
		if layer.Piece == piece.ID && l.minutes(its) > 0 {
			l.add(&Mitigation{Key: "flat/" + layer.ID, Title: "Leave out a layer of " + piece.Name + ": " + layer.Called(),
				Cost: "it looks thinner", Changes: []job.Change{job.Put("layer/"+layer.ID, "removed", true)},
				Look: lookThin, piece: piece.Name, matter: "piece/" + piece.ID, promise: l.promise(its)}, 0)
		}
	}
}

// along reports whether a task makes a layer that is made wherever its piece is.
func (l *mitigationList) along(t *crew.Task, piece string) bool {
	ref := task.RefTo(t.Key)
	for i := range l.job.Layers {
		if layer := &l.job.Layers[i]; layer.ID == ref.ID && layer.Piece == piece {
			return ref.Family == task.FamilyLayer && layer.Built == "piece"
		}
	}
	return false
}
