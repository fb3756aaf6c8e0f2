package plan_test

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/cluster"
)

// notDesign lists the fields of a job that its design does not depend on.
var notDesign = map[string]bool{
	"ID": true, "Contact": true, "Prices": true,
	"State":   true, // progress, which a cached plan adds anew
	"Private": true,
	"Photos":  true, // drawn over, see pwa/view
}

// fullJob returns a job with an entity of each noun and a value in each map.
func fullJob() job.Job {
	recipe := cluster.Recipe{{Duplets: 2, SizeIn: 11, ToIn: 10}} // its text leaves out parts without duplets
	return job.Job{ID: "job", State: job.NewState(), Private: job.NewState(),
		Colours: []job.Colour{{ID: "coral"}}, Crew: []job.Member{{ID: "ines"}}, Kit: []job.Kit{{ID: "car"}},
		Pieces: []job.Piece{{ID: "door", Recipe: recipe, AccentRecipe: recipe}},
		Layers: []job.Layer{{ID: "up", Piece: "door", Recipe: recipe}},
		Added:  []job.Added{{ID: "tags"}}, Boxes: []job.Box{{ID: "table"}},
		Overrides: map[string]job.Override{"clock/drive": {}}, Choices: map[string]string{"choice": "one"}}
}

// A change to any field of a job, even a nested one, changes the fingerprint, unless notDesign lists the field.
func TestDesignFingerprintCoversEveryField(t *testing.T) {
	require.Equal(t, plan.DesignFingerprint(fullJob()), plan.DesignFingerprint(fullJob()),
		"equal jobs have equal fingerprints")
	changed := 0
	for i := range reflect.TypeFor[job.Job]().NumField() {
		name := reflect.TypeFor[job.Job]().Field(i).Name
		if notDesign[name] {
			continue
		}
		leaves := func(j *job.Job) []leaf { return leavesOf(name, reflect.ValueOf(j).Elem().Field(i)) }
		probe := fullJob()
		for n, l := range leaves(&probe) {
			j := fullJob()
			change := leaves(&j)[n].change // the walk filled empty lists, so the fingerprint before it is another
			before := plan.DesignFingerprint(j)
			change()
			changed++
			assert.NotEqual(t, before, plan.DesignFingerprint(j), "%s is not in the fingerprint", l.path)
		}
	}
	assert.Greater(t, changed, 60, "the walk reaches the fields of pieces, colours, crew and kit")
}

// Changes to the fields of notDesign do not change the design.
func TestOtherFieldsDoNotChangeTheDesign(t *testing.T) {
	j := readJob(t, "orchard-wedding")
	want := plan.Design(j)
	other := j
	other.ID, other.Contact, other.Prices = "other", job.Contact{Name: "Ines"}, map[string]string{"latex/11": "9.90"}
	other.State, other.Private = job.NewState(), job.NewState()
	other.Photos = []job.Photo{{ID: "wall", DistanceMM: 2000}}
	assert.Equal(t, want, plan.Design(other))
	for name := range notDesign {
		_, there := reflect.TypeFor[job.Job]().FieldByName(name)
		assert.True(t, there, "%s is no field of a job", name)
	}
}

// The cache makes a design again for another fingerprint, and only then.
func TestCacheNoticesAChoice(t *testing.T) {
	var c plan.Cache
	j := readJob(t, "orchard-wedding")
	first := c.Plan(j, 1)
	require.Equal(t, plan.Make(j), first)
	longer := job.Try(j, []job.Change{job.Put("piece/"+j.Pieces[0].ID, "removed", true)})
	assert.Len(t, c.Plan(longer, 1).Pieces, len(first.Pieces), "the same fingerprint gives the cached design")
	assert.Len(t, c.Plan(longer, 2).Pieces, len(first.Pieces)-1)
}

// leaf is a value inside a field that can be changed.
type leaf struct {
	path   string
	change func()
}

// leavesOf lists the plain values in a value of a job, through structs, slices, maps and pointers.
func leavesOf(path string, v reflect.Value) []leaf {
	switch v.Kind() {
	case reflect.Struct:
		var all []leaf
		for i := range v.NumField() {
			all = append(all, leavesOf(path+"."+v.Type().Field(i).Name, v.Field(i))...)
		}
		return all
	case reflect.Slice:
		if v.Len() == 0 {
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		}
		return append(leavesOf(path+"[0]", v.Index(0)),
			leaf{path + " (one more)", func() { v.Set(reflect.Append(v, v.Index(0))) }})
	case reflect.Map:
		all := []leaf{{path + " (one more)", func() {
			v.SetMapIndex(reflect.ValueOf("another").Convert(v.Type().Key()), reflect.Zero(v.Type().Elem()))
		}}}
		for _, key := range v.MapKeys() {
			elem := reflect.New(v.Type().Elem()).Elem()
			elem.Set(v.MapIndex(key))
			for _, l := range leavesOf(path+"["+key.String()+"]", elem) {
				all = append(all, leaf{l.path, func() { l.change(); v.SetMapIndex(key, elem) }})
			}
		}
		return all
	case reflect.Pointer:
		return []leaf{{path + " (set)", func() { v.Set(reflect.New(v.Type().Elem())) }}}
	case reflect.String:
		return []leaf{{path, func() { v.SetString(v.String() + "x") }}}
	case reflect.Bool:
		return []leaf{{path, func() { v.SetBool(!v.Bool()) }}}
	case reflect.Float64:
		return []leaf{{path, func() { v.SetFloat(v.Float() + 1) }}}
	case reflect.Int, reflect.Int64:
		return []leaf{{path, func() { v.SetInt(v.Int() + 1) }}}
	}
	return []leaf{{path + ": a kind that the test does not know", func() {}}}
}
