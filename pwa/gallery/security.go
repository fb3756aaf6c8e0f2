package gallery

import "garlandry/pwa/view"

// securityEvents are samples of every kind of line in the security log.
func securityEvents() view.SecurityPage {
	const long = "Ines with a very long name that somebody typed on a phone"
	return view.SecurityPage{Page: 2, More: true, Events: []view.SecurityEvent{
		{
			At:    Now - 3*minute,
			Until: Now - minute,
			Times: 4210,
			What:  "refused",
			Why:   "too_many",
			From:  "2001:db8:85a3:1234:5678:8a2e:370:7334",
		},
		{
			At:         Now - 9*minute,
			Until:      Now - 4*minute,
			Times:      12,
			N:          6400,
			What:       "hour_full",
			Job:        "Reading room reopening",
			JobID:      "sample",
			Linked:     true,
			LinkID:     "linkinesabcdefgh",
			LinkName:   long,
			DeviceID:   "deviceabcdefgh",
			DeviceName: long,
			From:       "192.0.2.7",
		},
		{
			At:         Now - 30*minute,
			What:       "joined",
			Job:        "Reading room reopening",
			JobID:      "sample",
			Linked:     true,
			LinkID:     "linkinesabcdefgh",
			LinkName:   "Ines",
			DeviceID:   "deviceabcdefgh",
			DeviceName: "Ines <&>",
			From:       "192.0.2.7",
		},
		{
			At:       Now - 50*minute,
			What:     "link_ended",
			Job:      "Reading room reopening",
			LinkID:   "linkbeaabcdefgh",
			LinkName: "Bea",
			By:       "Dora",
			From:     "192.0.2.1",
		},
		{At: Now - 90*minute, What: "refused", Why: "other_site", By: "", From: "192.0.2.1"},
		{At: Now - 26*60*minute, What: "device_ended", DeviceID: "deviceabcdefgh", By: "command line"},
		{At: Now - 50*60*minute, What: "restored", By: "command line"},
		{At: Now - 51*60*minute, What: "of a newer version"},
	}}
}

// roomUses are samples of who wrote how much of a job.
func roomUses() []view.RoomUse {
	return []view.RoomUse{
		{
			Link:    "linkineslong",
			Name:    "Ines with a very long name that somebody typed on a phone",
			Ops:     18400,
			Bytes:   15_400_000,
			InHour:  5900,
			Crowded: true,
			Open:    true,
		},
		{Link: "linkbea", Name: "Bea <&>", Ops: 640, Bytes: 190_000, InHour: 12, Open: true},
		{Link: "linkcleo", Name: "Cleo", Ops: 1, Bytes: 290},
		{Ops: 412, Bytes: 120_000},
	}
}
