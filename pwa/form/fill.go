package form

import (
	"encoding/json"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// Fill returns the form of an entity: each named field as a person writes it, in their units, with a hidden input from
// which [Entity] sees whether it was changed. Fields never set show their default.
func Fill(n *job.Noun, s *job.State, entity string, fields []string, units measure.System) State {
	state := NewState()
	for _, name := range fields {
		if f, known := n.Field(name); known {
			show(state.Values, f, current(s, f, entity), units)
		}
	}
	return state
}

// Blank returns the form of a new entity, with the defaults of the named fields and no hidden inputs.
func Blank(n *job.Noun, fields []string, units measure.System) State {
	state := NewState()
	for _, name := range fields {
		if f, known := n.Field(name); known {
			show(state.Values, f, json.RawMessage(f.Default), units)
		}
	}
	for key := range state.Values {
		if strings.HasPrefix(key, was) {
			delete(state.Values, key)
		}
	}
	return state
}

func current(s *job.State, f *job.Field, entity string) json.RawMessage {
	value := s.Register(entity, f.Name).Value()
	if len(value) == 0 || string(value) == "null" || f.Check(value) != nil {
		return json.RawMessage(f.Default)
	}
	return value
}

// show writes a field's value, and what it was, into the inputs of a form.
func show(v Values, f *job.Field, value json.RawMessage, units measure.System) {
	switch f.Kind {
	case job.SizeList:
		var sizes []int
		_ = json.Unmarshal(value, &sizes) // a value that is not a list shows nothing ticked
		for _, size := range sizes {
			v[f.Name] = append(v[f.Name], strconv.Itoa(size))
		}
		v.Set(Was(f.Name), strings.Join(v[f.Name], " "))
	case job.Spans:
		for _, s := range job.ReadSpans(value) {
			v[f.Name] = append(v[f.Name], string(s.From), string(s.To))
		}
		v.Set(Was(f.Name), strings.Join(v[f.Name], " "))
	case job.Shares:
		var shares []job.Share
		_ = json.Unmarshal(value, &shares) // as above
		for _, share := range shares {
			put(v, f.Name+"."+share.Colour, plain(share.Weight))
		}
	case job.TypedCounts:
		showRows(v, f, value)
	case job.Flag:
		if string(value) == "true" {
			v.Set(f.Name, "1")
		}
		v.Set(Was(f.Name), v.Get(f.Name))
	default:
		put(v, f.Name, Text(f, value, units))
	}
}

func put(v Values, key, text string) {
	v.Set(key, text)
	v.Set(Was(key), text)
}

func showRows(v Values, f *job.Field, value json.RawMessage) {
	var counts []job.TypedCount
	_ = json.Unmarshal(value, &counts) // a value that is not a list shows no rows
	for row, c := range counts {
		put(v, Row(f.Name, row, RowSize), strconv.Itoa(c.SizeIn))
		put(v, Row(f.Name, row, RowTo), "")
		if c.ToIn > 0 {
			put(v, Row(f.Name, row, RowTo), plain(c.ToIn))
		}
		put(v, Row(f.Name, row, RowColour), c.Colour)
		put(v, Row(f.Name, row, RowCount), strconv.Itoa(c.Count))
	}
}

// Text writes one value of a field of a single input as a person would: "10 ft 6 in", "22 °C", "2x11@10".
func Text(f *job.Field, value json.RawMessage, units measure.System) string {
	if len(value) == 0 || string(value) == "null" {
		return ""
	}
	switch f.Kind {
	case job.Length, job.SmallLength, job.Temperature, job.Mass, job.Speed, job.Volume, job.Whole, job.Number:
		var n float64
		if json.Unmarshal(value, &n) != nil {
			return ""
		}
		return number(f, n, units)
	case job.Lengths:
		var list []float64
		_ = json.Unmarshal(value, &list) // a value that is not a list shows nothing
		texts := make([]string, len(list))
		for i, mm := range list {
			texts[i] = measure.FormatLength(mm, units)
		}
		return strings.Join(texts, " + ")
	}
	var text string
	_ = json.Unmarshal(value, &text) // a value that is not text shows nothing
	return text
}

func number(f *job.Field, n float64, units measure.System) string {
	switch f.Kind {
	case job.Length, job.SmallLength, job.Mass, job.Volume:
		if n == 0 && f.Min == 0 {
			return "" // not said
		}
	}
	switch f.Kind {
	case job.Length:
		return measure.FormatLength(n, units)
	case job.Mass:
		return measure.FormatMass(n, units)
	case job.SmallLength:
		return measure.FormatSmallLength(n, units)
	case job.Temperature:
		return measure.FormatTemperature(n, units)
	case job.Speed:
		return measure.FormatSpeed(n, units)
	case job.Volume:
		return measure.FormatVolume(n, units)
	}
	if n < lowest(f) {
		return "" // by the rule
	}
	return plain(n)
}
