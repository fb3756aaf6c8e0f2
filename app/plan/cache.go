package plan

import (
	"encoding/json"
	"hash/fnv"

	"garlandry/app/job"
	"garlandry/calc/cache"
)

// Cache holds the designs of the jobs used last, so that a tick does not compute them again. The zero Cache is ready;
// its methods are safe for concurrent use.
type Cache struct {
	designs cache.Cache[string, cachedDesign]
}

type cachedDesign struct {
	fingerprint uint64
	placeless   uint64 // fingerprint of the job without its room and the places in it
	design      Plan   // without notes about the room
	fitted      Plan
}

// Plan returns what [Make] returns for the job. The fingerprint must change with the job's design, as that of
// [DesignFingerprint] does.
func (c *Cache) Plan(j job.Job, fingerprint uint64) Plan {
	cached, found := c.designs.Get(j.ID)
	if !found || cached.fingerprint != fingerprint {
		placeless := DesignFingerprint(withoutPlaces(j))
		if found && cached.placeless == placeless { // a drag must not count the job again
			cached.design = cached.design.placedAs(j)
		} else {
			cached.design = Counted(j)
		}
		cached.fingerprint, cached.placeless, cached.fitted = fingerprint, placeless, cached.design.fitted(j)
		c.designs.Put(j.ID, cached)
	}
	return Progress(j, cached.fitted)
}

// withoutPlaces returns the job without what only its room's picture and notes depend on.
func withoutPlaces(j job.Job) job.Job {
	j.Boxes, j.Brief.RoomWidthMM, j.Brief.RoomHeightMM = nil, 0, 0
	j.Pieces = append([]job.Piece(nil), j.Pieces...)
	for i := range j.Pieces {
		j.Pieces[i].AtMM, j.Pieces[i].UpMM = nil, nil
	}
	return j
}

// DesignFingerprint hashes everything in a job that [Design] depends on.
func DesignFingerprint(j job.Job) uint64 {
	h := fnv.New64a()
	var ids []string // JSON leaves them out
	for _, c := range j.Colours {
		ids = append(ids, c.ID)
	}
	for _, m := range j.Crew {
		ids = append(ids, m.ID)
	}
	for _, k := range j.Kit {
		ids = append(ids, k.ID)
	}
	for _, p := range j.Pieces {
		ids = append(ids, p.ID)
	}
	for _, l := range j.Layers {
		ids = append(ids, l.ID)
	}
	for _, a := range j.Added {
		ids = append(ids, a.ID)
	}
	for _, b := range j.Boxes {
		ids = append(ids, b.ID)
	}
	// Plain values into a hash cannot fail.
	_ = json.NewEncoder(h).
		Encode([]any{ids, j.Brief, j.Colours, j.Crew, j.Kit, j.Pieces, j.Layers, j.Added, j.Overrides, j.Choices,
			j.Boxes})
	return h.Sum64()
}
