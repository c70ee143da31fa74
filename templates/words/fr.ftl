# Les mots des documents en français. Pas encore relus par une personne du métier qui l'exerce en français.

## Phrases and numbers

list-end = { $first } et { $last }
percent = { $number } %
hours = { $number } h
minutes = { $number } min
work-units = { $number } unités de travail

## Names of panels, and of what is found on them

panel-kind-front-bumper-cover = pare-chocs avant
panel-kind-hood = capot
panel-kind-fender = aile avant
    .gender = feminine
panel-kind-a-pillar = montant A
panel-kind-roof = toit
panel-kind-roof-rail = brancard de pavillon
panel-kind-mirror-cap = coque de rétroviseur
    .gender = feminine
panel-kind-front-door = porte avant
    .gender = feminine
panel-kind-b-pillar = montant B
panel-kind-rear-door = porte arrière
    .gender = feminine
panel-kind-sliding-door = porte coulissante
    .gender = feminine
panel-kind-rocker = bas de caisse
panel-kind-c-pillar = montant C
panel-kind-quarter-panel = aile arrière
    .gender = feminine
panel-kind-cab-corner = angle de cabine
panel-kind-bed-side = côté de benne
panel-kind-front-van-side = flanc avant de fourgon
panel-kind-rear-van-side = flanc arrière de fourgon
panel-kind-fuel-flap = trappe à carburant
panel-kind-trunk-lid = couvercle de coffre
panel-kind-tailgate = hayon
panel-kind-rear-cargo-door = porte de chargement arrière
    .gender = feminine
panel-kind-rear-bumper-cover = pare-chocs arrière
panel-on-side = { $panel } { $side ->
    [left] gauche
   *[right] { $gender ->
        [feminine] droite
       *[other] droit
     }
 }

mark = défaut isolé
mark-with-size = { $mark } { $size }
mark-kind-dent = bosse
mark-kind-oversize-dent = très grande bosse
mark-kind-crease = pli
mark-kind-crown = point haut
mark-kind-brace-mark = marque de renfort
mark-kind-broken-paint = peinture abîmée
mark-kind-not-damage = pas un dommage

excluded-not-damage = pas un dommage
excluded-other-event = dû à un autre événement
excluded-earlier = présent avant le sinistre
excluded-mark = { $panel } : { $mark }, { $reason }.
excluded-alone = { $panel } : { $reason }.

## Ways of repair and labour

included-no-repair = non réparé
included-paintless = réparé sans peinture
included-paintless-then-refinish = réparé, puis peint
included-conventional-repair = réparé de façon classique
included-replace = remplacé
included-refer-to-a-person = à examiner d'abord

labour-class-paintless = débosselage sans peinture
labour-class-remove-and-refit = dépose et repose
labour-class-conventional = tôlerie
labour-class-refinish = peinture

## Vehicles and keys

body-type-three-door-hatchback = trois portes à hayon
body-type-hatchback = cinq portes à hayon
body-type-sedan = berline
body-type-estate = break
body-type-coupe = coupé
body-type-convertible = cabriolet
body-type-sport-utility = tout-chemin
body-type-people-carrier = monospace
body-type-pick-up = pick-up
body-type-crew-cab-pick-up = pick-up à double cabine
body-type-van = fourgon
no-vehicle = Aucune feuille ne décrit de véhicule.

key-claim-number = numéro de sinistre
key-job-number = numéro de dossier
key-registration = immatriculation
key-vin = numéro d'identification du véhicule
key-sheet = feuille

## Money

settlement-repair = réparation
settlement-cash-in-place-of-repair = argent au lieu de réparation
settlement-total-loss = perte totale
settlement-total-loss-car-kept = perte totale, véhicule conservé

net-and-tax = hors taxe { $net }, taxe { $tax }
net-tax-and-rounding = hors taxe { $net }, taxe { $tax }, arrondi { $rounding }
gross-range = une estimation, de { $low } à { $high }
gross-not-priced = non chiffré
gross-open = en suspens
borne-tax = taxe récupérée ailleurs { $amount }
borne-betterment = part de ce qui est neuf { $amount }
borne-paid-before = déjà payé { $amount }
borne-excess = franchise { $amount }
borne-over-limit = au-delà du plafond du contrat { $amount }

## What is open or was not looked at

open-panels = { $count ->
    [one] { $number } élément de carrosserie en suspens
   *[other] { $number } éléments de carrosserie en suspens
 }
open-items = { $count ->
    [one] { $number } pièce en suspens
   *[other] { $number } pièces en suspens
 }
without = sans { $list }
open-item = { $item } : { $why }. Dans aucun total.
item-nothing-written = ni prix ni temps indiqués
item-no-labour-rate = le barème n'a pas de taux pour cette main-d'œuvre
not-inspected = Non examiné : { $list }. Rien n'y est chiffré.
not-seen-yet = Les dommages qui n'apparaissent qu'une fois les garnitures déposées : ils font l'objet d'un devis à part avant la suite des travaux.

## Heads and running feet

label-by-schedule = selon le barème
label-page = page
label-of = sur
label-vehicle = Véhicule
label-event = Ce qui s'est passé
label-nobody = Rien n'est en suspens.
label-gross = Total taxe comprise
label-repair-gross = Réparation, taxe comprise
label-price = Prix taxe comprise
label-insurer-pays = L'assureur paie
label-owner-bears = À la charge du propriétaire
label-salvage-kept = Épave conservée par le propriétaire
label-settlement-amount = Montant de l'indemnité

## The owner's sheet

label-owner-sheet = Pour le propriétaire
label-what-becomes = Votre véhicule
label-you-bear = À votre charge
label-salvage-yours = Épave que vous conservez
label-repair-with-tax = Réparation, taxe comprise
label-undecided = Pas encore décidé
label-found = Ce qui a été constaté
label-will-be-done = Ce qui sera fait
label-not-covered = Ce qui n'est pas couvert, et pourquoi
label-why-you-pay = Pourquoi une part reste à votre charge
label-how-long = Combien de temps cela prend
label-check-on-collection = Ce qu'il faut vérifier en reprenant le véhicule

owner-total-loss = Votre véhicule est réglé en perte totale ; il n'est pas réparé dans ce sinistre.
owner-total-loss-kept = Votre véhicule est réglé en perte totale et vous le conservez ; il n'est pas réparé dans ce sinistre.
owner-cash = Vous êtes payé en argent ; aucune réparation n'est commandée dans ce sinistre.
owner-screen-reached = La réparation peut coûter plus que ce que votre véhicule permet. Un expert habilité décide selon le contrat et le droit local ; d'ici là, les chiffres sont ceux d'une réparation.
owner-repair-open = Votre véhicule est réparé. Quelque chose n'est pas encore décidé : voir plus bas.
owner-no-damage = Aucun dommage à réparer n'a été constaté.
owner-repair = Votre véhicule est réparé.

owner-dents = Bosses : { $list }.
owner-dents-of-panel = { $panel } { $number }
owner-marks = Mesuré un par un : { $list }.
owner-mark-on-panel = { $mark } ({ $panel })
owner-items = Également endommagé : { $list }.

owner-done = { $method } : { $list }.
owner-item-done = { $item } : { $action ->
    [repair] réparation
    [refit] dépose et repose
   *[replace] remplacement
 }.
owner-panel-undecided = { $panel } : pas encore décidé ou pas encore chiffré ; quelqu'un l'examine d'abord. Il n'est dans aucun chiffre de cette feuille.
owner-nothing-found = { $count ->
    [one] Aucun dommage constaté sur { $number } élément : { $list }.
   *[other] Aucun dommage constaté sur { $number } éléments : { $list }.
 }

owner-excess = { $amount } { $currency } : la franchise que votre contrat laisse à votre charge.
owner-tax = { $amount } { $currency } : de la taxe que vous récupérez ailleurs, donc que l'assureur ne paie pas.
owner-betterment = { $amount } { $currency } : votre part des pièces neuves là où les anciennes étaient usées.
owner-paid-before = { $amount } { $currency } : déjà versés pour les mêmes éléments.
owner-over-limit = { $amount } { $currency } : au-delà du plafond de votre contrat.

owner-hours = Calculé au temps : { $labour }.
owner-hours-and-dents = Calculé au temps : { $labour }. Les bosses sont chiffrées d'après leur nombre et s'y ajoutent.
owner-dents-by-number = Les bosses sont chiffrées d'après leur nombre ; aucune heure n'est indiquée pour elles.
owner-no-hours = Aucune heure n'est indiquée.
owner-hours-not-days = Ce sont des heures de travail. Le nombre de jours d'immobilisation dépend aussi des pièces, de la peinture et du séchage : demandez à l'atelier.

owner-check-walk = Faites le tour du véhicule lavé, à la lumière du jour, et regardez le long de chaque élément nommé ici, depuis deux directions.
owner-check-open = Ouvrez et fermez portes, vitres et capots ; allumez les feux.
owner-check-residue = Cherchez des restes de colle ou de produit de polissage, des garnitures mal fixées et des bruits sur le chemin du retour.
owner-check-warnings = Aucun témoin n'est allumé qui ne l'était pas avant.
owner-check-calibration = Si une caméra ou un radar a été touché, demandez la preuve de son étalonnage.
owner-check-ask = Demandez ce qui reste visible et pourquoi, et gardez cette feuille.
owner-who-decides = Cette feuille est une information. Votre contrat d'assurance, votre contrat avec l'atelier et le droit local décident de ce qui vous est dû ; adressez-vous à votre assureur ou à un conseil si vous n'êtes pas d'accord.
