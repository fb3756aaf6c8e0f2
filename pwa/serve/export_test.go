package serve

import "garlandry/app/job"

// ReadJob reads a job as pages for the role see it.
func (s *Server) ReadJob(id string, role job.Role) (job.Job, bool) { return s.readJob(id, role) }
