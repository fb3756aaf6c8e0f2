package job_test

import (
	"math"
	"strings"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func photoChanges(id string, more ...job.Change) []job.Change {
	entity := "photo/" + id
	return append([]job.Change{job.Put(entity, "name", "Wall "+id), job.Put(entity, "hash", strings.Repeat("a", 64)),
		job.Put(entity, "bytes", 1000), job.Put(entity, "width_px", 1600), job.Put(entity, "height_px", 1200)}, more...)
}

// TestPhotoScale checks the law of the scale: a distance on the wall divided by pixels apart is the same in any
// direction, and twice the distance halves the scale. Geometry: Pythagoras.
func TestPhotoScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := job.Photo{WidthPX: rapid.IntRange(100, 1600).Draw(t, "wide"),
			HeightPX:  rapid.IntRange(100, 1600).Draw(t, "high"),
			FirstXPct: rapid.Float64Range(0, 40).Draw(t, "x1"), SecondXPct: rapid.Float64Range(60, 100).Draw(t, "x2"),
			FirstYPct: rapid.Float64Range(0, 40).Draw(t, "y1"), SecondYPct: rapid.Float64Range(60, 100).Draw(t, "y2"),
			DistanceMM: rapid.Float64Range(10, 20000).Draw(t, "mm")}
		across := (p.SecondXPct - p.FirstXPct) * float64(p.WidthPX) / 100
		down := (p.SecondYPct - p.FirstYPct) * float64(p.HeightPX) / 100
		assert.InEpsilon(t, math.Hypot(across, down), p.PXPerMM()*p.DistanceMM, 1e-12)
		turned := p
		turned.FirstXPct, turned.SecondXPct = p.SecondXPct, p.FirstXPct
		assert.InEpsilon(t, p.PXPerMM(), turned.PXPerMM(), 1e-12)
		twice := p
		twice.DistanceMM *= 2
		assert.InEpsilon(t, p.PXPerMM(), 2*twice.PXPerMM(), 1e-12)
	})
	p := job.Photo{WidthPX: 1000, HeightPX: 500, FirstXPct: 50, SecondXPct: 51.9, DistanceMM: 1000}
	assert.Zero(t, p.PXPerMM(), "points so close say nothing")
	p.SecondXPct, p.DistanceMM = 90, 0
	assert.Zero(t, p.PXPerMM(), "nothing was measured")
}

func TestOnlyTwelvePhotosAreStoredWithAJob(t *testing.T) {
	var changes []job.Change
	for i := range 14 {
		id := string(rune('a' + i))
		changes = append(changes, photoChanges(id, job.Put("photo/"+id, "order", i),
			job.Put("photo/"+id, "shared", i != 3))...)
	}
	changes = append(changes, photoChanges("odd", job.Put("photo/odd", "hash", "../../"+strings.Repeat("a", 58)))...)
	j := job.Preview(changes)
	assert.Len(t, j.Photos, 14, "one whose hash is none is left out")
	shared := j.SharedPhotos()
	require.Len(t, shared, job.MostSharedPhotos)
	assert.Equal(t, []string{"a", "b", "c", "e"}, []string{shared[0].ID, shared[1].ID, shared[2].ID, shared[3].ID})
}

// TestPhotosAreInNoJobFile: their bytes are not in it either, so a copy of a job would show empty frames.
func TestPhotosAreInNoJobFile(t *testing.T) {
	j := job.Preview(append(photoChanges("a"), job.Put("brief", "title", "Wall")))
	require.Len(t, j.Photos, 1)
	data, err := job.EncodeFile(j)
	require.NoError(t, err)
	assert.NotContains(t, string(data), "Wall a")
	_, err = job.DecodeFile(data)
	require.NoError(t, err)
	_, err = job.DecodeFile([]byte(`{"garlandry":1,"":[{"name":"x"}]}`))
	assert.Error(t, err)
}

func TestWhoSeesAPhoto(t *testing.T) {
	by := func(role job.Role, name string, shared bool) job.Job {
		s := job.NewState()
		for i, c := range photoChanges("a", job.Put("photo/a", "shared", shared)) {
			s.Apply(job.Rec{Op: job.Op{ID: "operation" + string(rune('a'+i)), Device: "d", Number: uint64(i + 1), Version: 1,
				Kind: job.Set, Entity: c.Entity, Field: c.Field, Value: c.Value}, Effective: int64(i + 1),
				Author: job.Author{Role: role, Name: name}})
		}
		return job.Read("j", s, nil)
	}
	for _, row := range []struct {
		name   string
		j      job.Job
		role   job.Role
		viewer string
		want   bool
	}{
		{"the owner's own, on another device", by(job.Owner, "Dora", false), job.Owner, "", true},
		{"the owner's, for a lead", by(job.Owner, "Dora", false), job.Lead, "Dora", false},
		{"the owner's, for a helper", by(job.Owner, "Dora", false), job.Helper, "Ines", false},
		{"a lead's own", by(job.Lead, "Bea", false), job.Lead, "Bea", true},
		{"a lead's, for another lead", by(job.Lead, "Bea", false), job.Lead, "Olek", false},
		{"a lead's, for the owner", by(job.Lead, "Bea", false), job.Owner, "Dora", false},
		{"a shared one, for a helper", by(job.Owner, "Dora", true), job.Helper, "Ines", true},
	} {
		require.Len(t, row.j.Photos, 1, row.name)
		assert.Equal(t, row.want, row.j.ShowsPhoto(&row.j.Photos[0], row.role, row.viewer), row.name)
	}
	for role, want := range map[job.Role]bool{job.Owner: true, job.Lead: true, job.Helper: false} {
		assert.Equal(t, want, role.May(job.Set, "photo/a"), role)
	}
}
