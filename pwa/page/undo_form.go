package page

import (
	"encoding/json"
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/view"
)

// fieldsOf lists what changes set, each followed by a comma: "entity" for a new one of a list, else "entity field".
func (r *request) fieldsOf(changes []job.Change) string {
	list := ""
	for _, c := range changes {
		entry := c.Entity + " " + c.Field
		noun, known := job.FindNoun(c.Entity)
		if known && !noun.Single && !noun.Keyed() && r.registers(c.Entity) == nil {
			entry = c.Entity
		}
		if !strings.HasSuffix(","+list, ","+entry+",") {
			list += entry + ","
		}
	}
	return list
}

// unfix takes back the changes of a form or a fix that nobody else has changed since.
func (r *request) unfix(d action) result {
	var back []job.Change
	for _, entry := range strings.Split(d.text, ",") {
		entity, field, old := strings.Cut(entry, " ")
		c := job.Put(entity, "removed", true)
		if !old && !r.wrote(entity) {
			continue
		}
		if old {
			register := r.registers(entity)[field]
			if register == nil || len(register.Readings) == 0 || register.Readings[0].Author.Name != r.Visitor.Name {
				continue
			}
			readings := register.Readings
			var before json.RawMessage
			if len(readings) > 1 {
				before = readings[1].Value
			}
			c = job.Put(entity, field, before)
		}
		if r.Visitor.Role.MayField(job.Set, c.Entity, c.Field) && job.CheckChange(c) == nil {
			back = append(back, c)
		}
	}
	if back == nil {
		return result{wrong: view.LabelChangedSince}
	}
	return result{change: back[0], more: back[1:], flash: "Undone."}
}

// registers returns the fields of an entity, which is the owner's own or everybody's.
func (r *request) registers(entity string) map[string]*job.Register {
	if job.Private(entity) {
		return r.job.Private.Registers[entity]
	}
	return r.job.State.Registers[entity]
}

// wrote reports whether every field of an entity is this person's and the entity stands.
func (r *request) wrote(entity string) bool {
	fields := r.registers(entity)
	for _, field := range fields {
		if len(field.Readings) > 0 && field.Readings[0].Author.Name != r.Visitor.Name {
			return false
		}
	}
	return len(fields) > 0 && !r.job.State.Removed(entity)
}
