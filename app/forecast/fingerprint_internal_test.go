package forecast

import (
	"reflect"
	"testing"

	"garlandry/app/plan"
	"garlandry/app/plan/task"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/crew"
)

// smallForecast returns a small forecast with every part of package crew's job filled in.
func smallForecast() *Forecast {
	at := []crew.Interval{{From: 1, To: 2}, {From: 5, To: 6}}
	c := &Forecast{Origin: 7, People: []Person{{Name: "Ines"}}, job: crew.Job{
		Tasks: []crew.Task{
			{Key: "a"},
			{Key: "b", Before: []string{"a", "c"}, Taken: []string{"ines"}, By: []string{"ines"},
				Needs: []crew.Need{{Thing: "pump"}, {Thing: "ladder"}}},
		},
		People: []crew.Person{{Key: "ines", Free: at, Only: []crew.Place{crew.Home, crew.Site}}},
		Things: []crew.Thing{{Key: "pump"}}, Rates: []crew.Rate{{Kind: "fill"}}}}
	for i := range c.job.Windows {
		c.job.Windows[i] = at[:1:1]
	}
	return c
}

// leaves visits every plain value inside a value, with its name.
func leaves(v reflect.Value, name string, visit func(v reflect.Value, name string)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				leaves(v.Field(i), name+"."+v.Type().Field(i).Name, visit)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			leaves(v.Index(i), name, visit)
		}
	default:
		visit(v, name)
	}
}

// Any change to the job of package crew changes the fingerprint.
func TestFingerprintCoversEveryInput(t *testing.T) {
	var none plan.Plan
	before, seen := smallForecast().fingerprintOf(&none), 0
	count := 0
	leaves(reflect.ValueOf(&smallForecast().job).Elem(), "Job", func(reflect.Value, string) { count++ })
	for n := range count {
		c, at := smallForecast(), 0
		leaves(reflect.ValueOf(&c.job).Elem(), "Job", func(v reflect.Value, name string) {
			at++
			if at-1 != n {
				return
			}
			switch v.Kind() {
			case reflect.String:
				v.SetString(v.String() + "x")
			case reflect.Bool:
				v.SetBool(!v.Bool())
			case reflect.Float64:
				v.SetFloat(v.Float() + 1)
			case reflect.Int:
				v.SetInt(v.Int() + 1)
			case reflect.Uint8:
				v.SetUint(v.Uint() + 1)
			default:
				t.Fatalf("%s is a %s, which this test cannot change", name, v.Kind())
			}
			seen++
			assert.NotEqual(t, before, c.fingerprintOf(&none), name)
		})
	}
	assert.Equal(t, count, seen)
	for name, change := range map[string]func(c *Forecast){
		"one more task":   func(c *Forecast) { c.job.Tasks = append(c.job.Tasks, crew.Task{Key: "c"}) },
		"one person less": func(c *Forecast) { c.job.People, c.People = nil, nil },
		"one need less":   func(c *Forecast) { c.job.Tasks[1].Needs = c.job.Tasks[1].Needs[:1] },
		"one wait less":   func(c *Forecast) { c.job.Tasks[1].Before = c.job.Tasks[1].Before[:1] },
		"one more window": func(c *Forecast) { c.job.Windows[1] = append(c.job.Windows[1], crew.Interval{From: 8, To: 9}) },
		"another name":    func(c *Forecast) { c.People[0].Name = "Bea" },
		"another day":     func(c *Forecast) { c.Origin++ },
		"one place less":  func(c *Forecast) { c.job.People[0].Only = c.job.People[0].Only[:1] },
		"one thing less":  func(c *Forecast) { c.job.Things = nil },
		"another seed":    func(c *Forecast) { c.seed++ },
	} {
		c := smallForecast()
		change(c)
		assert.NotEqual(t, before, c.fingerprintOf(&none), name)
	}
	assert.NotEqual(t, before, smallForecast().fingerprintOf(&plan.Plan{Cards: []task.Card{{Title: "Put up the arch"}}}),
		"a title")
	assert.NotEqual(t, smallForecast().fingerprintOf(&plan.Plan{Cards: []task.Card{{}}}),
		smallForecast().fingerprintOf(&plan.Plan{Cards: []task.Card{{TakenBy: "Ines"}}}),
		"who took a card")
}
