package forecast

import (
	"garlandry/app/plan/task"
	"strings"

	"garlandry/app/job"
)

// kindOf is the kind of work of a card; "" for the user's own cards, whose minutes are theirs.
func kindOf(c *task.Card, kind job.PieceKind) string {
	family, _, _ := strings.Cut(strings.TrimPrefix(c.Key, "card/"), "/")
	switch family {
	case "make", "ahead", "accents":
		return "fill"
	case "dress":
		return "fix"
	case "load", "unload", "reload", "carry":
		return "car"
	case "fix":
		switch kind {
		case job.Numbers, job.Free:
			return "fix"
		case job.Bouquets, job.Tables:
			return "set-out"
		}
		return "shape"
	case "added":
		return ""
	}
	return family
}
