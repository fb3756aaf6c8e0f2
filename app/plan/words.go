package plan

import (
	"encoding/json"
	"strings"
	"unicode"

	"garlandry/app/job"
)

// says reports whether a name holds one of the words as a whole word, in any case.
func says(name string, words ...string) bool {
	for _, have := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) }) {
		for _, w := range words {
			if have == w {
				return true
			}
		}
	}
	return false
}

// isSign reports whether kit hangs as a sign: by its name, or because it names a frame and is no cloth.
func isSign(k job.Kit) bool {
	return k.Kind == "other" &&
		(k.Frame != "" && !isCover(k) || says(k.Name, "sign", "signs", "letters", "lettering", "banner"))
}

// isCover reports whether kit is a cloth or panel that goes on a frame, by its name.
func isCover(k job.Kit) bool {
	return k.Kind == "other" &&
		says(k.Name, "cloth", "cloths", "curtain", "curtains", "drape", "drapes", "panel", "panels")
}

// signs is the kit that hangs as signs.
func (d *draft) signs() []job.Kit {
	var list []job.Kit
	for _, t := range d.things() {
		if t.sign {
			list = append(list, *t.Kit)
		}
	}
	return list
}

// stopped is what somebody wrote, ended by a full stop so that a sentence can follow.
func stopped(said string) string {
	if strings.ContainsAny(said[max(0, len(said)-1):], ".!?") {
		return said
	}
	return said + "."
}

// text is what a field of an entity says, removed entities included, or the fallback if it says nothing.
func text(j job.Job, entity, field, fallback string) string {
	var said string
	if json.Unmarshal(j.State.Register(entity, field).Value(), &said) != nil || strings.TrimSpace(said) == "" {
		return fallback
	}
	return said
}
