package ledgertest

import (
	"strings"
	"testing"

	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func devices(t *testing.T, open Open) {
	in := open(t, "job1")
	require.NoError(t, in(func(l server.Ledger) error {
		owner, err := l.DeviceOf("a")
		require.NoError(t, err)
		assert.Empty(t, owner)
		require.NoError(t, l.BindDevice("a", "first"))
		return l.BindDevice("a", "second")
	}))
	require.NoError(t, in(func(l server.Ledger) error {
		owner, err := l.DeviceOf("a")
		assert.Equal(t, "first", owner, "an id keeps its owner")
		return err
	}))
}

// devicesAreBound checks that no phone writes under another's device id, and that an honest phone loses nothing by it.
func devicesAreBound(t *testing.T, open Open) {
	in := open(t, "job1")
	one := tick("one", "a", 1, now)
	require.Equal(t, "ok", results(serve(t, in, helper, post(now, one), now)))
	assert.Equal(t, "fork fork",
		results(serve(t, in, lead, post(now, tick("two", "a", 2, now), tick("three", "a", 3, now)), now)),
		"the id belongs to another phone, even if the numbers are free")
	assert.Equal(t, "fork", results(serve(t, in, owner, post(now, tick("two", "a", 1<<40, now)), now)),
		"not even the owner")
	assert.Equal(t, "ok", results(serve(t, in, lead, post(now, one), now)),
		"a known operation is acknowledged to any phone")
	assert.Equal(t, "ok ok",
		results(serve(t, in, lead, post(now, tick("two", "b", 2, now), tick("three", "b", 3, now)), now)),
		"under a new id they are accepted")

	installed := helper
	installed.ID, installed.Family = "s-installed", helper.ID
	assert.Equal(t, "ok", results(serve(t, in, installed, post(now, tick("four", "a", 4, now)), now)),
		"the installed app of the same phone")
	again := helper
	again.ID = "s-again"
	assert.Equal(t, "fork", results(serve(t, in, again, post(now, tick("five", "a", 5, now)), now)),
		"a new session on the same phone takes a new id")

	closed := lead
	closed.ID, closed.Closed, closed.ClosedAt = "s-closed", sync.Revoked, now
	assert.Equal(t, "fork", results(serve(t, in, closed, post(now, tick("six", "a", 6, now)), now)),
		"not through the quarantine either")
	assert.Equal(t, "quarantined", results(serve(t, in, closed, post(now, tick("six", "c", 6, now)), now)))
	assert.Equal(t, "fork", results(serve(t, in, lead, post(now, tick("seven", "c", 7, now)), now)),
		"a held operation binds its device id")

	held := all(t, in)
	restored := open(t, "job1")
	req := post(now + day)
	req.Heal = held
	assert.Equal(t, strings.TrimSpace(strings.Repeat("ok ", len(held))), results(serve(t, restored, lead, req, now+day)),
		"healed records keep their device")
	assert.Equal(t, "a", all(t, restored)[0].Device)
	assert.Equal(t, "ok", results(serve(t, restored, helper, post(now+day, tick("eight", "a", 8, now)), now+day)),
		"healing does not bind it to the healing phone")
}
