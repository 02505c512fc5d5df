package tables

// sunGuards hold the tables of the sun.
var sunGuards = []guard{}
