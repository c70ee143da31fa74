# Las palabras de los documentos en español. Todavía sin revisar por nadie del oficio que lo ejerza en español.

## Phrases and numbers

list-end = { $first } y { $last }
percent = { $number } %
hours = { $number } h
minutes = { $number } min
work-units = { $number } unidades de trabajo

## Names of panels, and of what is found on them

panel-kind-front-bumper-cover = parachoques delantero
panel-kind-hood = capó
panel-kind-fender = aleta delantera
    .gender = feminine
panel-kind-a-pillar = pilar A
panel-kind-roof = techo
panel-kind-roof-rail = larguero de techo
panel-kind-mirror-cap = carcasa de retrovisor
    .gender = feminine
panel-kind-front-door = puerta delantera
    .gender = feminine
panel-kind-b-pillar = pilar B
panel-kind-rear-door = puerta trasera
    .gender = feminine
panel-kind-sliding-door = puerta corredera
    .gender = feminine
panel-kind-rocker = estribo
panel-kind-c-pillar = pilar C
panel-kind-quarter-panel = aleta trasera
    .gender = feminine
panel-kind-cab-corner = esquina de cabina
    .gender = feminine
panel-kind-bed-side = lateral de la caja de carga
panel-kind-front-van-side = lateral delantero de furgón
panel-kind-rear-van-side = lateral trasero de furgón
panel-kind-fuel-flap = tapa del depósito
panel-kind-trunk-lid = tapa del maletero
panel-kind-tailgate = portón trasero
panel-kind-rear-cargo-door = puerta de carga trasera
    .gender = feminine
panel-kind-rear-bumper-cover = parachoques trasero
panel-on-side = { $panel } { $side ->
    [left] { $gender ->
        [feminine] izquierda
       *[other] izquierdo
     }
   *[right] { $gender ->
        [feminine] derecha
       *[other] derecho
     }
 }

mark = daño suelto
mark-with-size = { $mark } { $size }
mark-kind-dent = abolladura
mark-kind-oversize-dent = abolladura muy grande
mark-kind-crease = pliegue
mark-kind-crown = punto alto
mark-kind-brace-mark = marca de refuerzo
mark-kind-broken-paint = pintura dañada
mark-kind-not-damage = sin daño

excluded-not-damage = no es un daño
excluded-other-event = de otro siniestro
excluded-earlier = ya estaba antes del siniestro
excluded-mark = { $panel }: { $mark }, { $reason }.
excluded-alone = { $panel }: { $reason }.

## Ways of repair and labour

included-no-repair = no se repara
included-paintless = se repara sin pintar
included-paintless-then-refinish = se repara y después se pinta
included-conventional-repair = se repara de forma convencional
included-replace = se sustituye
included-refer-to-a-person = primero hay que examinarlo

labour-class-paintless = reparación sin pintura
labour-class-remove-and-refit = desmontaje y montaje
labour-class-conventional = chapa
labour-class-refinish = pintura

## Vehicles and keys

body-type-three-door-hatchback = tres puertas con portón
body-type-hatchback = cinco puertas con portón
body-type-sedan = berlina
body-type-estate = familiar
body-type-coupe = cupé
body-type-convertible = descapotable
body-type-sport-utility = todocamino
body-type-people-carrier = monovolumen
body-type-pick-up = camioneta
body-type-crew-cab-pick-up = camioneta de doble cabina
body-type-van = furgón
no-vehicle = Ninguna hoja describe un vehículo.

key-claim-number = número de siniestro
key-job-number = número de trabajo
key-registration = matrícula
key-vin = número de bastidor
key-sheet = hoja

## Money

settlement-repair = reparación
settlement-cash-in-place-of-repair = dinero en lugar de reparación
settlement-total-loss = pérdida total
settlement-total-loss-car-kept = pérdida total, el vehículo se conserva

net-and-tax = neto { $net }, impuesto { $tax }
net-tax-and-rounding = neto { $net }, impuesto { $tax }, redondeo { $rounding }
gross-range = una estimación, de { $low } a { $high }
gross-not-priced = sin valorar
gross-open = pendiente
borne-tax = impuesto recuperado por otra vía { $amount }
borne-betterment = parte de lo nuevo { $amount }
borne-paid-before = pagado antes { $amount }
borne-excess = franquicia { $amount }
borne-over-limit = por encima del límite de la póliza { $amount }

## What is open or was not looked at

open-panels = { $count ->
    [one] { $number } pieza pendiente
   *[other] { $number } piezas pendientes
 }
open-items = { $count ->
    [one] { $number } elemento pendiente
   *[other] { $number } elementos pendientes
 }
without = sin { $list }
open-item = { $item }: { $why }. No está en ningún total.
item-nothing-written = no hay precio ni tiempo anotados
item-no-labour-rate = el baremo no tiene tarifa para esa mano de obra
not-inspected = Sin inspeccionar: { $list }. Ahí no se ha valorado nada.
not-seen-yet = Los daños que solo se ven al quitar los guarnecidos: se presupuestan aparte antes de seguir trabajando.

## Heads and running feet

label-by-schedule = según el baremo
label-page = página
label-of = de
label-vehicle = Vehículo
label-event = Qué ocurrió
label-nobody = No hay nada pendiente.
label-gross = Total con impuesto
label-repair-gross = Reparación con impuesto
label-price = Precio con impuesto
label-insurer-pays = Paga la aseguradora
label-owner-bears = A cargo del propietario
label-salvage-kept = Restos que conserva el propietario
label-settlement-amount = Importe de la indemnización

## The owner's sheet

label-owner-sheet = Para el propietario
label-what-becomes = Su vehículo
label-you-bear = A su cargo
label-salvage-yours = Restos que usted conserva
label-repair-with-tax = Reparación con impuesto
label-undecided = Aún sin decidir
label-found = Qué se encontró
label-will-be-done = Qué se hará
label-not-covered = Qué no está cubierto y por qué
label-why-you-pay = Por qué queda algo a su cargo
label-how-long = Cuánto se tarda
label-check-on-collection = Qué comprobar al recoger el vehículo

owner-total-loss = Su vehículo se liquida como pérdida total; en este siniestro no se repara.
owner-total-loss-kept = Su vehículo se liquida como pérdida total y usted lo conserva; en este siniestro no se repara.
owner-cash = Se le paga en dinero; en este siniestro no se encarga la reparación.
owner-screen-reached = La reparación puede costar más de lo que su vehículo admite. Decide un perito autorizado según la póliza y la ley del lugar; hasta entonces las cifras son las de una reparación.
owner-repair-open = Su vehículo se repara. Queda algo por decidir: véase más abajo.
owner-no-damage = No se encontró ningún daño que haya que reparar.
owner-repair = Su vehículo se repara.

owner-dents = Abolladuras: { $list }.
owner-dents-of-panel = { $panel } { $number }
owner-marks = Medido uno por uno: { $list }.
owner-mark-on-panel = { $mark } ({ $panel })
owner-items = También dañado: { $list }.

owner-done = { $method }: { $list }.
owner-item-done = { $item }: { $action ->
    [repair] se repara
    [refit] se desmonta y se vuelve a montar
   *[replace] se sustituye
 }.
owner-panel-undecided = { $panel }: aún sin decidir o sin valorar; primero alguien lo examina. No está en ninguna cifra de esta hoja.
owner-nothing-found = { $count ->
    [one] No se encontró ningún daño en { $number } pieza: { $list }.
   *[other] No se encontró ningún daño en { $number } piezas: { $list }.
 }

owner-excess = { $amount } { $currency } son la franquicia que su póliza deja a su cargo.
owner-tax = { $amount } { $currency } son impuesto que usted recupera por otra vía, por lo que la aseguradora no lo paga.
owner-betterment = { $amount } { $currency } son su parte de las piezas que son nuevas donde las viejas estaban desgastadas.
owner-paid-before = { $amount } { $currency } se le pagaron antes por las mismas piezas.
owner-over-limit = { $amount } { $currency } superan el límite de su póliza.

owner-hours = Calculado por tiempo: { $labour }.
owner-hours-and-dents = Calculado por tiempo: { $labour }. Las abolladuras se valoran por su número y se añaden aparte.
owner-dents-by-number = Las abolladuras se valoran por su número; no hay horas anotadas para ellas.
owner-no-hours = No hay horas anotadas.
owner-hours-not-days = Son horas de trabajo. Los días que se queda el vehículo dependen también de los recambios, la pintura y el secado: pregunte al taller.

owner-check-walk = Dé la vuelta al vehículo lavado con luz de día y mire a lo largo de cada pieza que se nombra aquí, desde dos direcciones.
owner-check-open = Abra y cierre puertas, ventanillas y tapas; encienda las luces.
owner-check-residue = Busque restos de adhesivo o de pulimento, guarnecidos sueltos y ruidos en el camino a casa.
owner-check-warnings = No hay encendido ningún testigo que antes no lo estuviera.
owner-check-calibration = Si se tocó una cámara o un radar, pida el comprobante de que se calibró.
owner-check-ask = Pregunte qué sigue viéndose y por qué, y guarde esta hoja.
owner-who-decides = Esta hoja es informativa. Lo que le corresponde lo deciden su póliza, su contrato con el taller y la ley del lugar; pregunte a su aseguradora o a un asesor si no está de acuerdo.
