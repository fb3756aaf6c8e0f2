package forecast

import (
	"cmp"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
)

// kindOf returns the kind of work of a card. It is empty for the user's own cards, whose minutes are the user's own.
func kindOf(c *task.Card, kind job.PieceKind) string {
	switch family := task.RefTo(c.Key).Family; family {
	case task.FamilyMake, task.FamilyAhead, task.FamilyLayer, task.FamilyAccents:
		return "fill"
	case task.FamilyGrow, task.FamilyDress:
		return "fix"
	case task.FamilyLoad, task.FamilyUnload, task.FamilyReload, task.FamilyCarry:
		return "car"
	case task.FamilyFix:
		k, _ := count.KindOf(count.Kinds(), kind)
		return cmp.Or(k.Work, "shape")
	case task.FamilyAdded:
		return ""
	default:
		return string(family)
	}
}
