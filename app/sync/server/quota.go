package server

import (
	"fmt"
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// Use is an amount of operations and of their bytes as they are sealed.
type Use struct{ Ops, Bytes int64 }

// Plus returns the sum of two amounts.
func (u Use) Plus(v Use) Use { return Use{u.Ops + v.Ops, u.Bytes + v.Bytes} }

// reaches reports whether the operations or the bytes have reached the limit.
func (u Use) reaches(limit Use) bool { return u.Ops >= limit.Ops || u.Bytes >= limit.Bytes }

// The limits of one log of a job. A link counts everybody who came by it, with all their phones; an owner counts all of
// the owner's devices.
//
//	who                              an hour                  in all
//	one helper link                  6,000 ops, 4 MiB         20,000 ops, 16 MiB
//	all helper links together        60,000 ops, 32 MiB       150,000 ops, 96 MiB
//	everybody                        no limit                 200,000 ops, 128 MiB
//	the owner, whatever others did   no limit                 50,000 ops, 32 MiB
//	waiting after a link's end:
//	one session                                               500 ops, 64 KiB
//	one link, all sessions                                    1,500 ops, 192 KiB
//	the log                                                   15,000 ops, 1,920 KiB
//
// How these limits were found: sealed, a count takes about 250 bytes and a tick 290 to 520. The tick of a list names
// what it stands for and takes 1,900 in the demo job (measured).
//
//   - A link in an hour: the twelve phones of a link come back with 500 operations each. One person who taps every five
//     seconds makes 1,440. 4 MiB is 700 bytes for each operation.
//   - A link in all: a tap every five seconds for twelve hours is 17,280. 16 MiB is 840 bytes each: notes are longer.
//   - All links in an hour: thirty phones that had no signal all day come back at once with 2,000 operations each.
//   - All links in all: thirty helpers who tap every 15 seconds for ten hours make 144,000.
//   - Everybody: 200 times the work of a large job. A quarter of it is left for the owner.
//   - The owner: the room that is left, also in a log that others filled before there were limits.
//   - Waiting: three full phones of a link, ten full links of a job.
//
// So a hostile helper can add 4 MiB to a job in the first hour, and 16 MiB by one link. Beyond the hourly limit the
// server puts operations off: the phone keeps them and sends them again ([sync.Later]). Beyond the total it refuses
// them, and says whom to ask. Records that heal a restored server count in the total, not in the hour, and are never
// refused for either. Hours follow the server's clock.
var (
	LinkHour    = Use{6_000, 4 << 20}
	LinkTotal   = Use{20_000, 16 << 20}
	OthersHour  = Use{60_000, 32 << 20}
	OthersTotal = Use{150_000, 96 << 20}
	OwnerRoom   = Use{50_000, 32 << 20}
	HeldLink    = Use{3 * MaxHeldOps, 3 * MaxHeldBytes}
	HeldLog     = Use{30 * MaxHeldOps, 30 * MaxHeldBytes}
)

// Limits of one log.
const (
	MaxLogOps   = 200_000
	MaxLogBytes = 128 << 20
)

// Limits of what one closed session may send.
const (
	MaxHeldOps   = 500
	MaxHeldBytes = 64 << 10
)

const hourMS = 60 * 60 * 1000

// Names under which a ledger counts. Hours sort by time.
const (
	useCounted = "counted" // the totals were counted from the log's beginning
	useOwner   = "total/owner"
	useOthers  = "total/others"
	useLinks   = "total/link/"
	useHours   = "hour/"
	useHeldAll = "held/all"
	useHeld    = "held/link/"
)

func useTotal(by job.Author) string {
	if by.Role == job.Owner {
		return useOwner
	}
	return useLinks + by.Link
}

func hourKey(now int64) string { return fmt.Sprintf("%s%012d/", useHours, max(now, 0)/hourMS) }

// room decides whether the log has room for one more operation of the session: [sync.Later] if only the hour is full.
// The owner may always set operations aside.
func (x *exchange) room(op job.Op) (sync.Result, string, error) {
	full := x.head.Count >= MaxLogOps || x.head.Bytes >= MaxLogBytes
	by := x.session.Author
	own, err := x.ledger.Used(useTotal(by))
	if err != nil {
		return "", "", err
	}
	if by.Role == job.Owner {
		_, setsAside := job.AsideOf(op.Entity)
		if full && own.reaches(OwnerRoom) && !setsAside {
			return sync.Denied, sync.WhyFull, nil
		}
		return sync.OK, "", nil
	}
	others, err := x.ledger.Used(useOthers)
	switch {
	case err != nil:
		return "", "", err
	case own.reaches(LinkTotal):
		return sync.Denied, sync.WhyLinkFull, nil
	case full || others.reaches(OthersTotal):
		return sync.Denied, sync.WhyOthersFull, nil
	}
	hour := hourKey(x.clock)
	inHour, err := x.ledger.Used(hour + by.Link)
	if err != nil {
		return "", "", err
	}
	othersInHour, err := x.ledger.Used(hour)
	if err != nil {
		return "", "", err
	}
	if inHour.reaches(LinkHour) || othersInHour.reaches(OthersHour) {
		x.pauseMS = hourMS - max(x.clock, 0)%hourMS
		return sync.Later, sync.WhyLater, nil
	}
	return sync.OK, "", nil
}

// LaterError refuses a request because its link has reached the hourly limit. It is for phones that do not know
// [sync.Later]: those would send the same again at once.
type LaterError struct{ Pause int64 } // milliseconds

func (e *LaterError) Error() string { return sync.WhyLater }

// laterError returns a [LaterError] if every operation was put off and the phone does not know [sync.Later].
func (x *exchange) laterError() error {
	if x.req.Waits || x.pauseMS == 0 {
		return nil
	}
	for _, a := range x.acks {
		if a.Result != sync.Later {
			return nil
		}
	}
	return &LaterError{x.pauseMS}
}

// countRec counts an appended record.
func countRec(l Ledger, by job.Author, size int) error {
	one := Use{1, int64(size)}
	err := l.AddUse(useTotal(by), one)
	if err == nil && by.Role != job.Owner {
		err = l.AddUse(useOthers, one)
	}
	return err
}

// countHour counts an operation of the session in the current hour, and deletes the counters of hours before the last.
func (x *exchange) countHour(bytes uint64) error {
	if x.session.Author.Role == job.Owner {
		return nil
	}
	hour, one := hourKey(x.clock), Use{1, int64(bytes)}
	before, err := x.ledger.Used(hour)
	if err == nil && before.Ops == 0 {
		err = x.ledger.DropUse(useHours, hourKey(x.clock-hourMS))
	}
	if err == nil {
		err = x.ledger.AddUse(hour, one)
	}
	if err == nil {
		err = x.ledger.AddUse(hour+x.session.Author.Link, one)
	}
	return err
}

// countOldLog counts the records of a log from before there were limits, once.
func countOldLog(l Ledger, head Head) error {
	done, err := l.Used(useCounted)
	if err != nil || done.Ops > 0 {
		return err
	}
	totals, err := totalsOf(l, head)
	if err != nil {
		return err
	}
	for key, use := range totals {
		if err := l.AddUse(key, use); err != nil {
			return err
		}
	}
	return l.AddUse(useCounted, Use{Ops: 1})
}

// totalsOf counts a log by reading all of it.
func totalsOf(l Ledger, head Head) (map[string]Use, error) {
	totals := map[string]Use{}
	for from := uint64(1); from <= head.Seq; {
		recs, err := l.Read(from, sync.MaxRecs)
		if err != nil || len(recs) == 0 {
			return totals, err
		}
		for _, rec := range recs {
			body, err := sealedBody(l.Log(), rec)
			if err != nil {
				return nil, err
			}
			key, one := useTotal(rec.Author), Use{1, int64(len(body))}
			totals[key] = totals[key].Plus(one)
			if rec.Author.Role != job.Owner {
				totals[useOthers] = totals[useOthers].Plus(one)
			}
		}
		from = recs[len(recs)-1].Seq + 1
	}
	return totals, nil
}

// heldRoom reports whether the session, its link and the log may hold one more operation in quarantine.
func (x *exchange) heldRoom(held Held) (bool, error) {
	ops, bytes, err := x.ledger.HeldBy(x.session.ID)
	if err != nil || ops >= MaxHeldOps || bytes+held.Bytes() > MaxHeldBytes {
		return false, err
	}
	for key, limit := range map[string]Use{useHeld + x.session.Author.Link: HeldLink, useHeldAll: HeldLog} {
		use, err := x.ledger.Used(key)
		if err != nil || use.Ops >= limit.Ops || use.Bytes+int64(held.Bytes()) > limit.Bytes {
			return false, err
		}
	}
	return true, nil
}

// CountHeld counts an operation that entered or left quarantine.
func CountHeld(l Ledger, held Held, came bool) error {
	one := Use{1, int64(held.Bytes())}
	if !came {
		one = Use{-1, -one.Bytes}
	}
	if err := l.AddUse(useHeld+held.Author.Link, one); err != nil {
		return err
	}
	return l.AddUse(useHeldAll, one)
}

// Filled is how much of a log's room is used, and by whom.
type Filled struct {
	All, Owner, Others Use
	Links              map[string]Use // by link id
	Hour               map[string]Use // in this hour, by link id
}

// FilledBy returns who filled a log, at the server's clock. It writes nothing. If whole, it reads all of a log that was
// last written before there were limits; if not, it leaves such a log uncounted.
func FilledBy(l Ledger, now int64, whole bool) (Filled, error) {
	filled := Filled{Links: map[string]Use{}, Hour: map[string]Use{}}
	head, err := l.Head()
	if err != nil {
		return filled, err
	}
	filled.All = Use{int64(head.Count), int64(head.Bytes)}
	uses, err := l.Uses("")
	if err == nil && uses[useCounted].Ops == 0 && whole {
		uses, err = totalsOf(l, head)
	}
	if err != nil {
		return filled, err
	}
	filled.Owner, filled.Others = uses[useOwner], uses[useOthers]
	for key, use := range uses {
		if link, is := strings.CutPrefix(key, useLinks); is {
			filled.Links[link] = use
		}
		if link, is := strings.CutPrefix(key, hourKey(now)); is && link != "" {
			filled.Hour[link] = use
		}
	}
	return filled, nil
}

// LinksNearLimit lists the links that are near one of their limits, sorted.
func (f Filled) LinksNearLimit() []string {
	var links []string
	for link, use := range f.Links {
		if use.NearLimit(LinkTotal) || f.Hour[link].NearLimit(LinkHour) {
			links = append(links, link)
		}
	}
	slices.Sort(links)
	return links
}

// NearLimit reports whether the use has reached nine tenths of a limit: time to tell the owner.
func (u Use) NearLimit(limit Use) bool { return 10*u.Ops >= 9*limit.Ops || 10*u.Bytes >= 9*limit.Bytes }
