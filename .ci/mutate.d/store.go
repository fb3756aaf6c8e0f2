package main

var (
	inStore   = []string{"./app/store -skip Simulation|KilledServer|BoltIsALedger|SnapshotAndTail"}
	closing   = []string{"./app/store -run OpensNothingAgain|Revocation|StaysClosed|Invite|InstallCode|SigningOut"}
	restores  = []string{"./app/store -run ^TestARestoreKeepsDeviceIDs"}
	snapshots = []string{"./app/store -run SnapshotAndTail|Restore|Backup"}
)

var storeBreaks = []mutation{
	{"acknowledged though the disk refused", "app/store/sync.go",
		"if err != nil && doing == nil { // the disk refused the commit\n" +
			"\t\treturn fmt.Errorf(\"%w: %s: %w; nothing was changed\", ErrDirectory, s.dir, err)\n\t}\n\tif err != nil {",
		"if doing != nil {", inStore},
	{"no fsync of the journal", "app/store/journal.go", "errors.Join(err, j.file.Sync())", "errors.Join(err)", inStore},
	{"no journal", "app/store/journal.go", "_, err := j.file.Write(lines.Bytes())",
		"_, err := j.file.Write(lines.Bytes()[:0])", inStore},
	{"no thirty-day rule", "app/store/info.go", "Readings[0].Effective + lateMS", "Readings[0].Effective + 1000*lateMS",
		inStore},
	{"tokens are stored as they are", "app/store/session.go", "return hex.EncodeToString(sum[:])",
		"return token + hex.EncodeToString(sum[:0])", inStore},
	{"a link taken back stays open", "app/store/link.go", "return sync.Revoked, l.Revoked", "return \"\", 0", inStore},
	{"a restored log keeps its epoch", "app/store/restore.go", "head.Epoch = r.store.options.NewID()",
		"_ = r.store.options.NewID()", inStore},
	{"a restore opens again what was closed", "app/store/closed.go", "return c.all[closedKey{kind, id}].At",
		"return 0 * c.all[closedKey{kind, id}].At", inStore},
	{"the tail upon a snapshot begins too late", "app/store/state.go",
		"recs, err := l.Read(f.Seq+1, int(head.Seq-f.Seq))", "recs, err := l.Read(f.Seq+2, int(head.Seq-f.Seq))", snapshots},
	{"a link of one job writes in another", "app/store/sync.go", "if current.Job != \"\" && current.Job != jobOf(log) {",
		"if current.Job == \"none\" && current.Job != jobOf(log) {", inStore},
	{"closed.ndjson is not consulted for links", "app/store/closed.go",
		"at := s.closed.at(ClosedLink, row.ID); at > 0 &&", "at := s.closed.at(ClosedLink, row.ID); at < 0 &&", closing},
	{"closed.ndjson is not consulted for devices", "app/store/closed.go", "at := s.closed.at(ClosedDevice, row.ID)\n",
		"at := s.closed.at(ClosedDevice, \"\")\n", closing},
	{"closed.ndjson is not consulted for invites", "app/store/invite.go", "if s.closed.at(ClosedInvite, hash) > 0 ||",
		"if s.closed.at(ClosedInvite, hash) < 0 ||", closing},
	{"closed.ndjson is not consulted for install codes", "app/store/code.go",
		"|| s.closed.at(ClosedCode, string(key)) > 0 {", "|| s.closed.at(ClosedCode, string(key)) < 0 {", closing},
	{"closed.ndjson is not consulted for who signed out", "app/store/session.go",
		"row.unseen(s.options.Now()) || s.closed.at(SignedOut, row.ID) > 0 {", "row.unseen(s.options.Now()) {", closing},
	{"a revocation is not flushed", "app/store/closed.go", "err = file.Sync()", "err = nil", closing},
	{"a restore forgets whose device ids are", "app/store/restore.go", "r.devices[string(device)] = string(owner)",
		"_, _ = device, owner", restores},
}
