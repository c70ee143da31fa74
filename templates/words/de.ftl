# Die Wörter der Dokumente auf Deutsch. Noch von niemandem geprüft, der das Gewerbe auf Deutsch betreibt.

## Phrases and numbers

list-end = { $first } und { $last }
percent = { $number } %
hours = { $number } h
minutes = { $number } min
work-units = { $number } AW

## Names of panels, and of what is found on them

panel-kind-front-bumper-cover = Stoßfänger vorn
panel-kind-hood = Motorhaube
panel-kind-fender = Kotflügel
panel-kind-a-pillar = A-Säule
panel-kind-roof = Dach
panel-kind-roof-rail = Dachrahmen
panel-kind-mirror-cap = Spiegelkappe
panel-kind-front-door = Tür vorn
panel-kind-b-pillar = B-Säule
panel-kind-rear-door = Tür hinten
panel-kind-sliding-door = Schiebetür
panel-kind-rocker = Schweller
panel-kind-c-pillar = C-Säule
panel-kind-quarter-panel = Seitenwand
panel-kind-cab-corner = Kabinenecke
panel-kind-bed-side = Ladeflächenseite
panel-kind-front-van-side = Kastenseite vorn
panel-kind-rear-van-side = Kastenseite hinten
panel-kind-fuel-flap = Tankklappe
panel-kind-trunk-lid = Kofferraumdeckel
panel-kind-tailgate = Heckklappe
panel-kind-rear-cargo-door = Hecktür
panel-kind-rear-bumper-cover = Stoßfänger hinten
panel-on-side = { $panel } { $side ->
    [left] links
   *[right] rechts
 }

mark = Einzelschaden
mark-with-size = { $mark } { $size }
mark-kind-dent = Delle
mark-kind-oversize-dent = übergroße Delle
mark-kind-crease = Knick
mark-kind-crown = Hochpunkt
mark-kind-brace-mark = Strebenabdruck
mark-kind-broken-paint = Lackschaden
mark-kind-not-damage = kein Schaden

excluded-not-damage = kein Schaden
excluded-other-event = aus einem anderen Ereignis
excluded-earlier = schon vor dem Schaden vorhanden
excluded-mark = { $panel }: { $mark }, { $reason }.
excluded-alone = { $panel }: { $reason }.

## Ways of repair and labour

included-no-repair = nicht instand gesetzt
included-paintless = ohne Lackierarbeit instand gesetzt
included-paintless-then-refinish = instand gesetzt, dann lackiert
included-conventional-repair = herkömmlich instand gesetzt
included-replace = ersetzt
included-refer-to-a-person = zuerst zu begutachten

labour-class-paintless = Ausbeulen ohne Lackieren
labour-class-remove-and-refit = Aus- und Einbau
labour-class-conventional = Karosseriearbeit
labour-class-refinish = Lackierung

## Vehicles and keys

body-type-three-door-hatchback = Dreitürer mit Heckklappe
body-type-hatchback = Fünftürer mit Heckklappe
body-type-sedan = Limousine
body-type-estate = Kombi
body-type-coupe = Coupé
body-type-convertible = Cabriolet
body-type-sport-utility = Geländewagen
body-type-people-carrier = Großraumlimousine
body-type-pick-up = Pick-up
body-type-crew-cab-pick-up = Pick-up mit Doppelkabine
body-type-van = Kastenwagen
no-vehicle = Auf keinem Blatt ist ein Fahrzeug beschrieben.

key-claim-number = Schadennummer
key-job-number = Auftragsnummer
key-registration = Kennzeichen
key-vin = Fahrzeug-Identifizierungsnummer
key-sheet = Blatt

## Money

settlement-repair = Reparatur
settlement-cash-in-place-of-repair = Geld statt Reparatur
settlement-total-loss = Totalschaden
settlement-total-loss-car-kept = Totalschaden, Fahrzeug wird behalten

net-and-tax = netto { $net }, Steuer { $tax }
net-tax-and-rounding = netto { $net }, Steuer { $tax }, Rundung { $rounding }
gross-range = eine Schätzung, { $low } bis { $high }
gross-not-priced = nicht bewertet
gross-open = offen
borne-tax = anderswo erstattete Steuer { $amount }
borne-betterment = Anteil an Neuem { $amount }
borne-paid-before = früher gezahlt { $amount }
borne-excess = Selbstbeteiligung { $amount }
borne-over-limit = über der Grenze des Vertrags { $amount }

## What is open or was not looked at

open-panels = { $count ->
    [one] { $number } offenes Karosserieteil
   *[other] { $number } offene Karosserieteile
 }
open-items = { $count ->
    [one] { $number } offene Position
   *[other] { $number } offene Positionen
 }
without = ohne { $list }
open-item = { $item }: { $why }. In keiner Summe enthalten.
item-nothing-written = weder Preis noch Zeit angegeben
item-no-labour-rate = die Preisliste hat keinen Satz für diese Arbeit
not-inspected = Nicht besichtigt: { $list }. Dort ist nichts bewertet.
not-seen-yet = Schäden, die sich erst nach dem Ausbau von Verkleidungen zeigen: Sie werden eigens angeboten, bevor weitergearbeitet wird.

## Heads and running feet

label-by-schedule = nach der Preisliste
label-page = Seite
label-of = von
label-vehicle = Fahrzeug
label-event = Was geschah
label-nobody = Nichts ist offen.
label-gross = Brutto
label-repair-gross = Reparatur, brutto
label-price = Preis mit Steuer
label-insurer-pays = Versicherer zahlt
label-owner-bears = Eigentümer trägt
label-salvage-kept = Restwert beim Eigentümer
label-settlement-amount = Entschädigungsbetrag

## The owner's sheet

label-owner-sheet = Für die Eigentümerin oder den Eigentümer
label-what-becomes = Ihr Fahrzeug
label-you-bear = Sie tragen
label-salvage-yours = Restwert, den Sie behalten
label-repair-with-tax = Reparatur mit Steuer
label-undecided = Noch nicht entschieden
label-found = Was gefunden wurde
label-will-be-done = Was gemacht wird
label-not-covered = Was nicht gedeckt ist, und warum
label-why-you-pay = Warum Sie etwas selbst tragen
label-how-long = Wie lange es dauert
label-check-on-collection = Was Sie bei der Abholung prüfen sollten

owner-total-loss = Ihr Fahrzeug wird als Totalschaden abgerechnet; in diesem Schadenfall wird es nicht repariert.
owner-total-loss-kept = Ihr Fahrzeug wird als Totalschaden abgerechnet, und Sie behalten es; in diesem Schadenfall wird es nicht repariert.
owner-cash = Sie erhalten Geld; eine Reparatur ist in diesem Schadenfall nicht beauftragt.
owner-screen-reached = Die Reparatur könnte mehr kosten, als bei Ihrem Fahrzeug vertretbar ist. Eine dafür zugelassene Person entscheidet nach Vertrag und örtlichem Recht; bis dahin gelten die Zahlen einer Reparatur.
owner-repair-open = Ihr Fahrzeug wird repariert. Etwas ist noch nicht entschieden: siehe unten.
owner-no-damage = Es wurde kein Schaden gefunden, der repariert werden muss.
owner-repair = Ihr Fahrzeug wird repariert.

owner-dents = Dellen: { $list }.
owner-dents-of-panel = { $panel } { $number }
owner-marks = Einzeln gemessen: { $list }.
owner-mark-on-panel = { $mark } ({ $panel })
owner-items = Außerdem beschädigt: { $list }.

owner-done = { $method }: { $list }.
owner-item-done = { $item }: { $action ->
    [repair] repariert
    [refit] ab- und wieder angebaut
   *[replace] ersetzt
 }.
owner-panel-undecided = { $panel }: noch nicht entschieden oder nicht bewertet; zuerst sieht es sich jemand an. Es steckt hier in keiner Zahl.
owner-nothing-found = { $count ->
    [one] An { $number } Karosserieteil wurde kein Schaden gefunden: { $list }.
   *[other] An { $number } Karosserieteilen wurde kein Schaden gefunden: { $list }.
 }

owner-excess = { $amount } { $currency } sind die Selbstbeteiligung, die Ihr Vertrag Ihnen lässt.
owner-tax = { $amount } { $currency } sind Steuer, die Sie anderswo erstattet bekommen; der Versicherer zahlt sie daher nicht.
owner-betterment = { $amount } { $currency } sind Ihr Anteil an Teilen, die neu sind, wo die alten abgenutzt waren.
owner-paid-before = { $amount } { $currency } wurden Ihnen früher für dieselben Karosserieteile gezahlt.
owner-over-limit = { $amount } { $currency } gehen über die Grenze Ihres Vertrags hinaus.

owner-hours = Nach Zeit gerechnet: { $labour }.
owner-hours-and-dents = Nach Zeit gerechnet: { $labour }. Die Dellen sind nach ihrer Zahl bewertet und kommen hinzu.
owner-dents-by-number = Die Dellen sind nach ihrer Zahl bewertet; für sie sind keine Stunden angegeben.
owner-no-hours = Es sind keine Stunden angegeben.
owner-hours-not-days = Das sind Arbeitsstunden. Wie viele Tage das Fahrzeug bleibt, hängt auch von Teilen, Lackierung und Trocknung ab: Fragen Sie die Werkstatt.

owner-check-walk = Gehen Sie bei Tageslicht um das gewaschene Fahrzeug und sehen Sie an jedem hier genannten Karosserieteil entlang, aus zwei Richtungen.
owner-check-open = Öffnen und schließen Sie Türen, Fenster und Klappen; schalten Sie die Leuchten ein.
owner-check-residue = Achten Sie auf Reste von Kleber oder Politur, auf lose Verkleidungen und auf Klappern während der Heimfahrt.
owner-check-warnings = Es leuchtet keine Warnleuchte, die nicht schon vorher geleuchtet hat.
owner-check-calibration = Wo eine Kamera oder ein Radar berührt wurde, lassen Sie sich den Nachweis der Kalibrierung geben.
owner-check-ask = Fragen Sie, was sichtbar bleibt und warum, und bewahren Sie dieses Blatt auf.
owner-who-decides = Dieses Blatt ist eine Auskunft. Was Ihnen zusteht, entscheiden Ihr Versicherungsvertrag, Ihr Vertrag mit der Werkstatt und das örtliche Recht; fragen Sie Ihren Versicherer oder eine Beratungsstelle, wenn Sie nicht einverstanden sind.
