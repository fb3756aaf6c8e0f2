package store_test

import (
	"context"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFormWriteSurvivesReopening(t *testing.T) {
	dir := t.TempDir()
	s, err := store.Open(dir, store.Options{})
	require.NoError(t, err)
	ctx := context.Background()
	owner := s.System("Demo")
	id, err := s.CreateJob(ctx, owner, "",
		[]job.Change{job.Put("brief", "title", "Reading room reopening"), job.Put("own/contact", "name", "Town library")})
	require.NoError(t, err)
	_, err = s.Write(ctx, owner, id, []job.Change{job.Count("card/make/door", 12)})
	require.NoError(t, err)
	require.NoError(t, s.Close())

	s, err = store.Open(dir, store.Options{})
	require.NoError(t, err)
	defer s.Close()
	shared, private, err := s.State(id)
	require.NoError(t, err)
	j := job.Read(id, shared, private)
	assert.Equal(t, "Reading room reopening", j.Brief.Title)
	assert.Equal(t, "Town library", j.Contact.Name)
	assert.Equal(t, 12, j.Made("card/make/door"))
}
