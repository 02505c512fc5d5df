package tables

var batteryGuards = []guard{}
