package serve

import (
	"sync"
	"sync/atomic"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/look"
	"garlandry/calc/cache"
	"garlandry/pwa/view"
)

// coversAtOnce is how many covers one list computes before it is sent. The others follow in the background.
const coversAtOnce = 3

// covers computes and keeps the covers of jobs.
type covers struct {
	drawn cache.Cache[string, cover] // by job
	busy  atomic.Bool
	work  sync.WaitGroup
}

type cover struct {
	design uint64
	look   *look.Look
}

// cover sets the covers of rows that show a job's design. Those not drawn yet say that they follow.
func (s *Server) cover(rows []view.JobRow) {
	atOnce := 0
	var follow []string
	for i := range rows {
		r := &rows[i]
		if r.Archived {
			continue
		}
		drawn, there := s.covers.drawn.Get(r.ID)
		if !there || drawn.design != r.Design {
			if atOnce == coversAtOnce {
				r.Later, follow = true, append(follow, r.ID)
				continue
			}
			atOnce++
			drawn = s.drawCover(r.ID)
		}
		r.Cover = drawn.look
	}
	if len(follow) == 0 || !s.covers.busy.CompareAndSwap(false, true) {
		return
	}
	s.covers.work.Go(func() {
		defer s.covers.busy.Store(false)
		for _, id := range follow {
			select {
			case <-s.stop:
				return
			default:
				s.drawCover(id)
			}
		}
	})
}

// drawCover draws the cover of a job as it is now.
func (s *Server) drawCover(id string) cover {
	j, there := s.readJob(id, job.Helper) // the picture shows nothing of what only the owner sees
	if !there {
		return cover{}
	}
	design := plan.DesignFingerprint(j)
	p := s.plans.Plan(j, design)
	drawn := cover{design, view.Cover(&p, func() {})}
	s.covers.drawn.Put(id, drawn)
	return drawn
}
