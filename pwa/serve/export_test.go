package serve

import "garlandry/app/job"

// ReadJob reads a job as pages for the role see it.
func (s *Server) ReadJob(id string, role job.Role) (job.Job, bool) { return s.readJob(id, role) }

// CoversDone waits until no covers are drawn in the background.
func CoversDone(s *Server) { s.covers.work.Wait() }
