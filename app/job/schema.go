package job

// Schema returns the JSON Schema (draft 2020-12) of a job file.
func Schema() map[string]any {
	properties := map[string]any{
		"garlandry": map[string]any{"const": Version, "description": "version of the job file"},
		"progress":  progressSchema(),
	}
	required := []string{"garlandry"}
	for _, n := range filed() {
		entry := nounSchema(n)
		if !n.Single {
			entry = map[string]any{"type": "array", "maxItems": 1000, "items": entry}
		}
		entry["description"] = n.Label
		properties[n.InFile] = entry
	}
	return map[string]any{
		"$schema":              "https://json-schema.org/draft/2020-12/schema",
		"title":                "Garlandry job file",
		"type":                 "object",
		"properties":           properties,
		"required":             required,
		"additionalProperties": false,
	}
}

func progressSchema() map[string]any {
	return map[string]any{"type": "array", "maxItems": 5000, "description": "what has been done, by plan key",
		"items": map[string]any{
			"type":                 "object",
			"additionalProperties": false,
			"required":             []string{"key"},
			"properties": map[string]any{
				"key":      map[string]any{"type": "string", "pattern": "^(pack|card)/", "maxLength": MaxEntityBytes},
				"have":     map[string]any{"type": "integer", "minimum": 0},
				"bought":   map[string]any{"type": "integer", "minimum": 0},
				"unneeded": map[string]any{"type": "boolean"},
				"done":     map[string]any{"type": "boolean"},
				"made":     map[string]any{"type": "integer", "minimum": -maxMade, "maximum": maxMade},
			},
		}}
}

func nounSchema(n *Noun) map[string]any {
	properties := map[string]any{}
	var required []string
	if !n.Single {
		id := map[string]any{"type": "string", "maxLength": 40, "pattern": "^[A-Za-z0-9_-]+$", "description": n.fitting()}
		if n.Keyed() {
			id["maxLength"], id["pattern"] = 120, "^[A-Za-z0-9_/-]+$"
		}
		if n == &pieceNoun {
			id["not"] = map[string]any{"const": "new"}
		}
		properties["id"] = id
	}
	for _, f := range n.Fields {
		properties[f.Name] = f.Schema()
		if f.Required && f.Default == "" {
			required = append(required, f.Name)
		}
	}
	schema := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		schema["required"] = required
	}
	return schema
}

// Schema returns the JSON Schema of the field's value. A null clears a field that is not required.
func (f *Field) Schema() map[string]any {
	s := f.valueSchema()
	s["title"] = f.Label
	if f.Help != "" {
		s["description"] = f.Help
	}
	if !f.Required {
		return map[string]any{"anyOf": []any{s, map[string]any{"type": "null"}}}
	}
	return s
}

func (f *Field) valueSchema() map[string]any {
	switch f.Kind {
	case Text, LongText:
		return f.textSchema()
	case OneOf:
		values := make([]string, len(f.Choices))
		for i, c := range f.Choices {
			values[i] = c.Value
		}
		return map[string]any{"enum": values}
	case Flag:
		return map[string]any{"type": "boolean"}
	case Whole:
		return f.numberSchema("integer")
	case Length, SmallLength, Temperature, Mass, Speed, Volume, Number:
		return f.numberSchema("number")
	case Day:
		return map[string]any{"type": "string", "pattern": `^([0-9]{4}-[0-9]{2}-[0-9]{2})?$`}
	case PointInTime:
		return map[string]any{"type": "string", "pattern": `^([0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2})?$`}
	case HexColour:
		return map[string]any{"type": "string", "pattern": "^#[0-9a-fA-F]{6}$"}
	case SizeList:
		return listSchema(len(Sizes), map[string]any{"enum": Sizes})
	case Lengths:
		return listSchema(50, f.numberSchema("number"))
	case Spans:
		moment := map[string]any{"type": "string", "pattern": `^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}$`}
		return listSchema(MaxSpans, map[string]any{"type": "object", "required": []string{"from", "to"},
			"properties": map[string]any{"from": moment, "to": moment}})
	case Shares:
		return listSchema(40, map[string]any{"type": "object", "required": []string{"colour", "weight"},
			"properties": map[string]any{
				"colour": map[string]any{"type": "string"},
				"weight": map[string]any{"type": "number", "minimum": 0, "maximum": 1000},
			}})
	case TypedCounts:
		return listSchema(200, map[string]any{"type": "object", "required": []string{"size_in", "colour", "count"},
			"properties": map[string]any{
				"size_in": map[string]any{"type": "integer"},
				"to_in":   map[string]any{"type": "number", "minimum": 0, "maximum": 60},
				"colour":  map[string]any{"type": "string"},
				"count":   map[string]any{"type": "integer", "minimum": 0, "maximum": 10000},
			}})
	}
	return map[string]any{"type": "string"}
}

func (f *Field) textSchema() map[string]any {
	s := map[string]any{"type": "string"}
	if f.Max > 0 {
		s["maxLength"] = int(f.Max)
	}
	if f.Only != "" {
		s["pattern"] = "^[" + f.Only + "]*$"
	}
	return s
}

func (f *Field) numberSchema(kind string) map[string]any {
	return map[string]any{"type": kind, "minimum": f.Min, "maximum": f.Max}
}

func listSchema(most int, item map[string]any) map[string]any {
	return map[string]any{"type": "array", "maxItems": most, "items": item}
}
