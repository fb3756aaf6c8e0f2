package calc

import (
	"bytes"
	"encoding/json"
)

// JSON returns a result in the form {"name","inputs":{},"outputs":{},"notes":[], "sources":[]}. Inputs are the texts
// used, including defaults. Outputs are in the units that their keys name. Sources are objects with text and mark. Keys
// keep the calculator's order, and no list is null.
func (c *Calculator) JSON(r Result) ([]byte, error) {
	var out bytes.Buffer
	out.WriteString(`{"name":`)
	if err := writeJSON(&out, c.Name); err != nil {
		return nil, err
	}
	out.WriteString(`,"inputs":{`)
	for i, entry := range r.Used {
		if err := writeMember(&out, i, entry.Key, entry.Text); err != nil {
			return nil, err
		}
	}
	out.WriteString(`},"outputs":{`)
	written := 0
	for _, output := range c.Outputs {
		value, there := r.Outputs[output.Key]
		if !there {
			continue
		}
		if err := writeMember(&out, written, output.Key, value); err != nil {
			return nil, err
		}
		written++
	}
	out.WriteString(`},"notes":`)
	if err := writeJSON(&out, append([]string{}, r.Notes...)); err != nil {
		return nil, err
	}
	out.WriteString(`,"sources":`)
	if err := writeJSON(&out, append([]Source{}, r.Sources...)); err != nil {
		return nil, err
	}
	out.WriteByte('}')
	return out.Bytes(), nil
}

func writeMember(out *bytes.Buffer, index int, key string, value any) error {
	if index > 0 {
		out.WriteByte(',')
	}
	if err := writeJSON(out, key); err != nil {
		return err
	}
	out.WriteByte(':')
	return writeJSON(out, value)
}

// writeJSON writes value without HTML escapes, so that a recipe keeps its plus and a note its angle brackets.
func writeJSON(out *bytes.Buffer, value any) error {
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(value); err != nil {
		return err
	}
	out.Truncate(out.Len() - 1)
	return nil
}
