package view

// Labels that appear in more than one place.
const (
	labelAddPiece = "Add a piece"
	labelArchive  = "Archive"
	labelCare     = "Watch out"
	labelDone     = "All done"
	labelHistory  = "History"
	labelImport   = "Import a job"
	labelMaths    = "Show the maths"
	labelNoAccess = "You don’t have access"
	labelNumbers  = "My numbers"
	labelRestore  = "Restore"
	labelSave     = "Save"
	labelSaveFile = "Save as a file"
	labelUndo     = "Undo"
)
