package main

var (
	inSync   = []string{"./app/sync -skip Simulation"}
	quotas   = []string{"./app/sync -run ^TestMemoryIsALedger$"}
	restored = []string{"./app/sync -run ^(TestARecordThatHeals|TestAnIDThatSomebodyElseTook|TestWhatALostID|TestWhatStoodAbove|TestWhatIsMadeUpon)"}
	stamped  = []string{"./app/sync -run ^TestMemoryIsALedger$/^stamps$"}
)

var syncBreaks = []mutation{
	{"no de-duplication", "app/sync/serve.go", "rec, found, err := x.ledger.ByID(op.ID)\n\tif err != nil || !found {", "rec, found, err := x.ledger.ByID(op.ID)\n\tif err != nil || !found || found {", inSync},
	{"no parents", "app/sync/stamp.go", "for _, id := range op.Parents {", "for _, id := range op.Parents[:0] {", stamped},
	{"no clamp to the server's clock", "app/sync/stamp.go", "return min(wall, now)", "return wall", inSync},
	{"a wrong clock is not set right", "app/sync/stamp.go", "wall -= off", "wall -= 0 * off", inSync},
	{"a closed link writes as before", "app/sync/serve.go", "if session.Closed != \"\" {\n\t\treturn x.closed(resp)", "if session.Closed == \"never\" {\n\t\treturn x.closed(resp)", inSync},
	{"no quarantine after a link was taken back", "app/sync/hold.go", "if x.session.Closed == Ended && before && !builds {", "if x.session.Closed != \"\" || before && !builds {", inSync},
	{"no bound to what a closed link hands in", "app/sync/quota.go", "ops >= MaxHeldOps || bytes+held.Bytes() > MaxHeldBytes {", "ops+bytes < 0 {", inSync},
	{"no role check", "app/sync/serve.go", "role := x.session.Author.Role; !role.MayField(", "role := x.session.Author.Role; role == \"\" && !role.MayField(", inSync},
	{"helpers read the owner's log", "app/sync/serve.go", "if strings.HasSuffix(l.Log(), OwnSuffix) && session.Author.Role != job.Owner {", "if strings.HasSuffix(l.Log(), OwnSuffix) && session.Author.Role == \"\" {", inSync},
	{"a log grows without end", "app/sync/quota.go", "full := x.head.Count >= MaxLogOps || x.head.Bytes >= MaxLogBytes", "full := x.head.Count >= 1000*MaxLogOps || x.head.Bytes >= 1000*MaxLogBytes", inSync},
	{"no size cap of a sync body", "app/sync/decode.go", "if len(data) > MaxBytes {", "if len(data) > 1000*MaxBytes {", inSync},
	{"a cursor of another epoch is taken", "app/sync/serve.go", "if c.Epoch != x.head.Epoch || c.Seq > x.head.Seq {", "if c.Seq > x.head.Seq {", inSync},
	{"a cursor's hash is not looked at", "app/sync/serve.go", "return !found || hash != c.Hash, err", "return !found || hash == \"\", err", inSync},
	{"a record without a good seal heals", "app/sync/serve.go", "if !trusted {", "if !trusted && known {", inSync},
	{"a forked number is taken", "app/sync/serve.go", "if foreign || taken && first != op.ID {", "if foreign || taken && first == \"\" {", inSync},
	{"what follows a fork is taken", "app/sync/serve.go", "waits = waits || x.waits[id]", "waits = waits || x.waits[id] && id == \"\"", inSync},
	{"another phone's device id is taken", "app/sync/bind.go", "if owner != family && owner", "if owner == \"nobody\" && owner", inSync},
	{"a healed record leaves its device id to anybody", "app/sync/bind.go", "return x.ledger.BindDevice(rec.Device, owner)", "return nil", restored},
	{"everybody inherits device ids", "app/sync/bind.go", "return \"as \" + as", "return \"as anybody\"", restored},
	{"another's operation stands for what has its id", "app/sync/serve.go", "if taken(rec, op, by) {", "if taken(rec, op, rec.Author) {", restored},
	{"a record that is lifted leaves what stood above it", "app/sync/serve.go", "if rec.Effective != proposed {", "if rec.Effective == 0 {", restored},
	{"a form entered twice forgets what was in sight", "app/sync/serve.go", "if above == first.Effective {", "if above > 0 {", restored},
	{"no digest compare", "app/sync/phone_receive.go", "if l.meta.Digest == r.resp.Digest && l.meta.Count == r.resp.Count {", "if l.meta.Count == r.resp.Count || l.meta.Digest == r.resp.Digest {", inSync},
	{"an outbox row leaves before its record came", "app/sync/phone_receive.go", "r.acked[row] = true\n", "r.leave(row)\n", inSync},
	{"what a snapshot holds is left out", "app/sync/phone_log.go", "state, seq = s.State, s.Seq", "seq = s.Seq", inSync},
	{"what comes back stands behind", "app/sync/phone_order.go", "if !moved {\n", "if !moved || len(l.out) > 0 {\n", inSync},
	{"no hourly quota of a link", "app/sync/quota.go", "if inHour.reaches(LinkHour) ||", "if inHour.reaches(OthersHour) ||", quotas},
	{"no hourly quota of all links", "app/sync/quota.go", "|| othersInHour.reaches(OthersHour) {", "|| othersInHour.reaches(Use{1 << 40, 1 << 60}) {", quotas},
	{"no quota of a link in all", "app/sync/quota.go", "case own.reaches(LinkTotal):", "case own.reaches(OthersTotal):", quotas},
	{"no quota of all links", "app/sync/quota.go", "case full || others.reaches(OthersTotal):", "case full || others.Ops < 0:", quotas},
	{"helpers fill the owner's reserve", "app/sync/quota.go", "if full && own.reaches(OwnerRoom) && !setsAside {", "if full && !setsAside {", quotas},
	{"the owner's reserve has no end", "app/sync/quota.go", "if full && own.reaches(OwnerRoom) && !setsAside {", "if full && own.Ops < 0 && !setsAside {", quotas},
	{"a closed link hands in by as many sessions as it likes", "app/sync/quota.go", "if err != nil || use.Ops >= limit.Ops || use.Bytes+int64(held.Bytes()) > limit.Bytes {", "if err != nil || use.Ops > 1000*limit.Ops {", quotas},
	{"what is put off is lost on an earlier phone", "app/sync/quota.go", "if x.req.Waits || x.later == 0 {", "if x.req.Waits || x.later >= 0 {", quotas},
	{"hours are never forgotten", "app/sync/quota.go", "if err == nil && before.Ops == 0 {", "if err == nil && before.Ops < 0 {", quotas},
	{"no size cap of a body for several logs", "app/sync/batch.go", "if len(data) > MaxBatchBytes {", "if len(data) > 1000*MaxBatchBytes {", inSync},
	{"an answer of any depth is decoded", "app/sync/decode.go", "if err := job.ScanJSON(data, maxDepth); err != nil {\n\t\treturn Response{}", "if err := job.ScanJSON(data, 1000*maxDepth); err != nil {\n\t\treturn Response{}", inSync},
	{"what an unstored answer settled is let go", "app/sync/phone_rescue.go", "l.out...), l.left...)", "l.out...), l.left[:0]...)", []string{"./app/sync -run ^TestWhatAnUnstoredAnswer"}},
}
