package tables

var deviceGuards = []guard{}
