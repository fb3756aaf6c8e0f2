package plan

// Stepping stones for the files of the clock, until they move.

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"
)

type Card = task.Card
type Figure = figures.Figure

var Figures = figures.All

const FromMemory = figures.FromMemory
const Home = task.Home

var KindsOfWork = figures.KindsOfWork

const Load = task.Load

type Place = task.Place

const Site = task.Site
const TakeDown = task.TakeDown
const beginner = figures.Beginner

var plural = phrase.Count

type kindOfWork = figures.KindOfWork

var kindsOfWork = figures.WorkKinds
var narrowDoor = task.NarrowDoor

const practised = figures.Practised

type skill = figures.Skill
