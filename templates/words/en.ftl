# The words of documents in English. Other languages have the same keys and the same open places.
# How such a file is written: README.md in this folder.

## Phrases and numbers

list-end = { $first } and { $last }
percent = { $number } %
hours = { $number } h
minutes = { $number } min
work-units = { $number } work units

## Names of panels, and of what is found on them

panel-kind-front-bumper-cover = front bumper cover
panel-kind-hood = hood
panel-kind-fender = fender
panel-kind-a-pillar = A-pillar
panel-kind-roof = roof
panel-kind-roof-rail = roof rail
panel-kind-mirror-cap = mirror cap
panel-kind-front-door = front door
panel-kind-b-pillar = B-pillar
panel-kind-rear-door = rear door
panel-kind-sliding-door = sliding door
panel-kind-rocker = rocker
panel-kind-c-pillar = C-pillar
panel-kind-quarter-panel = quarter panel
panel-kind-cab-corner = cab corner
panel-kind-bed-side = bed side
panel-kind-front-van-side = front van side
panel-kind-rear-van-side = rear van side
panel-kind-fuel-flap = fuel flap
panel-kind-trunk-lid = trunk lid
panel-kind-tailgate = tailgate
panel-kind-rear-cargo-door = rear cargo door
panel-kind-rear-bumper-cover = rear bumper cover
panel-on-side = { $side ->
    [left] left
   *[right] right
 } { $panel }

mark = mark
mark-with-size = { $mark } { $size }
mark-kind-dent = dent
mark-kind-oversize-dent = oversize dent
mark-kind-crease = crease
mark-kind-crown = crown
mark-kind-brace-mark = brace mark
mark-kind-broken-paint = broken paint
mark-kind-not-damage = not damage

excluded-not-damage = not damage
excluded-other-event = from another event
excluded-earlier = there before the loss
excluded-mark = { $panel }: { $mark }, { $reason }.
excluded-alone = { $panel }: { $reason }.

## Ways of repair and labour

included-no-repair = not repaired
included-paintless = repaired without paint work
included-paintless-then-refinish = repaired, then painted
included-conventional-repair = repaired conventionally
included-replace = replaced
included-refer-to-a-person = to be looked at first

labour-class-paintless = paintless
labour-class-remove-and-refit = remove and refit
labour-class-conventional = conventional
labour-class-refinish = refinish

## Vehicles and keys

body-type-three-door-hatchback = three-door hatchback
body-type-hatchback = hatchback
body-type-sedan = sedan
body-type-estate = estate
body-type-coupe = coupe
body-type-convertible = convertible
body-type-sport-utility = sport utility
body-type-people-carrier = people carrier
body-type-pick-up = pick-up
body-type-crew-cab-pick-up = crew cab pick-up
body-type-van = van
no-vehicle = No vehicle is described on any sheet.

key-claim-number = claim number
key-job-number = job number
key-registration = registration
key-vin = VIN
key-sheet = sheet

## Money

settlement-repair = repair
settlement-cash-in-place-of-repair = cash in place of repair
settlement-total-loss = total loss
settlement-total-loss-car-kept = total loss, car kept

net-and-tax = net { $net }, tax { $tax }
net-tax-and-rounding = net { $net }, tax { $tax }, rounding { $rounding }
gross-range = an estimate, { $low } to { $high }
gross-not-priced = not priced
gross-open = open
borne-tax = tax reclaimed elsewhere { $amount }
borne-betterment = share of what is new { $amount }
borne-paid-before = paid before { $amount }
borne-excess = excess { $amount }
borne-over-limit = beyond the policy limit { $amount }

## What is open or was not looked at

open-panels = { $count ->
    [one] { $number } open panel
   *[other] { $number } open panels
 }
open-items = { $count ->
    [one] { $number } open item
   *[other] { $number } open items
 }
without = without { $list }
open-item = { $item }: { $why }. In no total.
item-nothing-written = neither a price nor a time
item-no-labour-rate = the schedule has no rate for its labour
not-inspected = Not inspected: { $list }. Nothing is priced there.
not-seen-yet = Damage that shows only once trim is off: it is quoted by itself before work goes on.

## Heads and running feet

label-by-schedule = by the schedule
label-page = page
label-of = of
label-vehicle = Vehicle
label-event = What happened
label-nobody = Nothing is open.
label-gross = Gross
label-repair-gross = Repair, gross
label-price = Price with tax
label-insurer-pays = Insurer pays
label-owner-bears = Owner bears
label-salvage-kept = Salvage kept by the owner
label-settlement-amount = Settlement amount

## The owner's sheet

label-owner-sheet = For the owner
label-what-becomes = Your car
label-you-bear = You bear
label-salvage-yours = Salvage you keep
label-repair-with-tax = Repair with tax
label-undecided = Not decided yet
label-found = What was found
label-will-be-done = What will be done
label-not-covered = What is not covered, and why
label-why-you-pay = Why there is something for you to bear
label-how-long = How long it takes
label-check-on-collection = What to check when you collect the car

owner-total-loss = Your car is settled as a total loss; it is not repaired on this claim.
owner-total-loss-kept = Your car is settled as a total loss, and you keep it; it is not repaired on this claim.
owner-cash = You are paid in money; repair on this claim is not ordered.
owner-screen-reached = Repair may cost more than your car allows. A licensed adjuster decides by the policy and local law; until then the figures are those of a repair.
owner-repair-open = Your car is repaired. Something is not decided yet: see below.
owner-no-damage = No damage was found that has to be repaired.
owner-repair = Your car is repaired.

owner-dents = Dents: { $list }.
owner-dents-of-panel = { $panel } { $number }
owner-marks = Measured one by one: { $list }.
owner-mark-on-panel = { $mark } on { $panel }
owner-items = Also damaged: { $list }.

owner-done = { $method }: { $list }.
owner-item-done = { $item }: { $action ->
    [repair] repaired
    [refit] taken off and put back
   *[replace] replaced
 }.
owner-panel-undecided = { $panel }: not decided or not priced yet; somebody looks at it first. It is in no figure here.
owner-nothing-found = { $count ->
    [one] No damage was found on { $number } panel: { $list }.
   *[other] No damage was found on { $number } panels: { $list }.
 }

owner-excess = { $amount } { $currency } is the excess that your policy leaves with you.
owner-tax = { $amount } { $currency } is tax that you get back elsewhere, so the insurer does not pay it.
owner-betterment = { $amount } { $currency } is your share of parts that are new where the old ones were worn.
owner-paid-before = { $amount } { $currency } was paid to you before for the same panels.
owner-over-limit = { $amount } { $currency } goes beyond the limit of your policy.

owner-hours = Reckoned by time: { $labour }.
owner-hours-and-dents = Reckoned by time: { $labour }. The dents are priced by their number and come on top.
owner-dents-by-number = The dents are priced by their number; no hours are written for them.
owner-no-hours = No hours are written.
owner-hours-not-days = These are hours of work. How many days the car stays also depends on parts, paint and drying: ask the workshop.

owner-check-walk = Walk round the washed car in daylight and look along each panel named here, from two directions.
owner-check-open = Open and close doors, windows and lids; switch on the lamps.
owner-check-residue = Look for residue of glue or polish, for loose trim and for rattles on the way home.
owner-check-warnings = No warning lamp is on that was not on before.
owner-check-calibration = Where a camera or a radar was touched, ask for the record that it was calibrated.
owner-check-ask = Ask what stays visible and why, and keep this sheet.
owner-who-decides = This sheet is information. Your policy, your contract with the workshop and local law decide what you are owed; ask your insurer or an adviser where you do not agree.
