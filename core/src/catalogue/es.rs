//! Spanish, in the polite form. It needs a clinician's reading. One line a text: key = text. Words in braces are filled in.

texts! {
    "page.title" = "Sus ejercicios";
    "page.for_whom" = "Este plan se hizo para usted después de mirar sus ojos. No se lo dé a otras personas.";
    "page.how_sure" = "Mucha gente mejora sin ejercicios. Estos pueden ayudar. Hágalos mientras le hagan bien.";
    "page.helper" = "Un adulto se queda con el niño todo el tiempo.";
    "page.do" = "Haga";
    "page.stop" = "Pare si";
    "page.call" = "Pida ayuda ya si";
    "page.language" = "Idioma";
    "page.print" = "Imprimir";
    "page.today" = "Hoy";
    "page.need" = "Necesita";
    "page.easier" = "Si es muy difícil";
    "page.private" = "Su plan se queda en este teléfono. No lleva ningún nombre.";

    "rule.before" = "Antes de empezar, diga cuánto malestar siente. 0 es nada. 10 es lo peor.";
    "rule.after" = "Dígalo otra vez al terminar.";
    "rule.limit" = "Puede sentirse un poco peor. No debe subir más de {rise}. Se le debe pasar en menos de {minutes} minutos.";
    "rule.no_rise" = "Pare en cuanto se sienta peor.";
    "rule.early" = "Los primeros días puede sentirse algo peor.";
    "rule.glasses" = "Use sus gafas o lentes de cerca, si los tiene.";
    "rule.far" = "Al terminar, mire lejos un rato.";
    "rule.place" = "Busque un sitio en calma y con buena luz. Quédese cerca de una pared. Use zapatos. Quite las alfombras sueltas.";
    "rule.when" = "No justo después de la escuela o del trabajo. Descanse antes.";

    "stop.double" = "Ve dos cosas donde hay una, y eso es nuevo.";
    "stop.head" = "Le duele más la cabeza, o de otra forma.";
    "stop.faint" = "Siente que se desmaya, o se cae.";
    "stop.chest" = "Le duele el pecho, o le cuesta respirar.";
    "stop.numb" = "Un brazo, una pierna o la cara están débiles o dormidos.";
    "stop.neck" = "Le duele el cuello, o nota un hormigueo en los brazos.";
    "stop.vomit" = "Vomita.";
    "stop.ear" = "De pronto oye menos, o le sale líquido del oído.";

    "call.emergency" = "Llame ya al {number}.";
    "call.emergency_none" = "Llame ya al número de emergencias.";
    "call.practice" = "Llame a quien le dio este plan.";

    "danger.wake" = "La persona no se despierta, o tiene mucho sueño.";
    "danger.fit" = "La persona tiene un ataque, o se desmaya.";
    "danger.headache" = "El dolor de cabeza va a más y no para.";
    "danger.vomiting" = "La persona vomita una y otra vez.";
    "danger.pupil" = "El círculo negro de un ojo es más grande que el otro.";
    "danger.sight" = "La persona ve doble o no ve bien, y eso es nuevo.";
    "danger.weak" = "Un brazo o una pierna está débil o dormida, o la persona no anda bien.";
    "danger.speech" = "La persona no habla bien, o no le conoce.";
    "danger.behaviour" = "La persona actúa de forma muy rara, o está cada vez más confusa.";
    "danger.fluid" = "Sale agua clara del oído o de la nariz.";
    "danger.baby" = "Un bebé no deja de llorar, o no quiere comer.";
    "danger.none" = "Nada de esto";
    "danger.ask" = "¿Pasa ahora algo de esto?";

    "felt.within" = "Bien. Siga con el plan.";
    "felt.at_limit" = "Puede seguir. La próxima vez haga el paso más fácil.";
    "felt.rose" = "Pare ya y descanse. Mañana pruebe el paso más fácil.";
    "felt.lasted" = "Tardó mucho en pasarse. Descanse por hoy. Mañana pruebe el paso más fácil.";
    "felt.strong_before" = "Se siente muy mal para empezar. Descanse y pruebe más tarde.";
    "felt.a_day" = "No se le pasó en un día. No haga más ejercicios. Llame a quien le dio este plan.";
    "felt.danger" = "Pare. No espere. Pida ayuda ya.";

    "rating.before" = "¿Cuánto malestar siente ahora?";
    "rating.after" = "¿Cuánto malestar siente después?";
    "rating.ends" = "0 es nada, 10 es lo peor.";
    "rating.settled" = "¿Cuánto tardó en sentirse como antes?";

    "dose.seconds" = "Hágalo {count} segundos.";
    "dose.one_minute" = "Hágalo un minuto.";
    "dose.minutes" = "Hágalo {count} minutos.";
    "dose.minute_seconds" = "Hágalo {minutes} minuto y {count} segundos.";
    "dose.minutes_seconds" = "Hágalo {minutes} minutos y {count} segundos.";
    "dose.once" = "Hágalo una vez.";
    "dose.times" = "Hágalo {count} veces.";
    "dose.sets" = "Luego repita todo, hasta hacerlo {count} veces.";
    "dose.sets_rest" = "Descanse {rest} segundos. Luego repita, hasta hacerlo {count} veces.";
    "dose.once_a_day" = "Una vez al día.";
    "dose.a_day" = "{count} veces al día.";
    "dose.every_day" = "Todos los días.";
    "dose.one_day" = "Un día por semana.";
    "dose.days" = "{count} días por semana.";
    "dose.one_week" = "Una semana.";
    "dose.weeks" = "{count} semanas.";
    "dose.beat" = "Siga el ritmo, {count} por minuto.";

    "timer.start" = "Empezar";
    "timer.pause" = "Esperar";
    "timer.go_on" = "Seguir";
    "timer.next" = "Siguiente";
    "timer.done" = "Hecho";
    "timer.rest" = "Descanso";
    "timer.stop" = "Parar";
    "timer.left" = "Quedan {count} segundos";
    "timer.set" = "{now} de {count}";

    "log.title" = "Lo que ha hecho";
    "log.none" = "Nada todavía.";
    "log.days" = "Días con ejercicios: {count}";
    "log.code" = "Enseñe este código en su próxima visita.";
    "log.numbers" = "O lea estos seis números por teléfono, uno a uno.";
    "log.clear" = "Borrar todo";
    "log.clear_ask" = "No se puede deshacer. ¿Borra lo que ha hecho?";

    "unreadable.nothing" = "En este enlace no hay ningún plan. Pida otro.";
    "unreadable.foreign" = "Este código no es un plan de ejercicios. Use el código que le dieron.";
    "unreadable.foreign_log" = "Este código no dice lo que se ha hecho. Pida el código que está al final del plan.";
    "unreadable.cut_short" = "Falta una parte de este enlace. Abra el enlace entero, o lea el código otra vez.";
    "unreadable.damaged" = "Este enlace tiene una letra mal, por eso no se abrió. Lea el código otra vez.";
    "unreadable.newer" = "Este plan es más nuevo que esta página. Cargue la página otra vez con internet.";
    "unreadable.markup" = "En este enlace hay algo que no es un plan, por eso no se abrió. Pida otro.";
    "unreadable.too_long" = "Este enlace es muy largo para un plan, por eso no se abrió. Pida otro.";

    "advice.rest.title" = "Descanso los dos primeros días";
    "advice.rest.1" = "Tómelo con calma uno o dos días. No hace falta estar a oscuras.";
    "advice.rest.2" = "Deje el teléfono y las pantallas todo lo que pueda.";
    "advice.rest.3" = "Luego haga un poco más cada día. Duerma cuando tenga sueño.";
    "advice.rest.4" = "Casi todos los jóvenes están bien en cuatro semanas. Si no es así, pida otra visita.";

    "advice.reading.title" = "Pausas al leer";
    "advice.reading.1" = "Lea de cinco a quince minutos. Luego descanse los ojos y mire lejos.";
    "advice.reading.2" = "Lea algo más cuando le siente bien.";
    "advice.reading.3" = "Use letra grande, o pida que le lean el texto.";
    "advice.reading.4" = "Pida a la escuela hojas ya escritas, un cuarto en calma y más tiempo.";

    "advice.screens.title" = "Pausas de la pantalla";
    "advice.screens.1" = "Al principio use poco las pantallas.";
    "advice.screens.2" = "Pare de vez en cuando y mire lejos. Cierre y abra los ojos unas veces.";
    "advice.screens.3" = "Baje la luz de la pantalla. Ponga la letra grande.";

    "advice.school.title" = "Volver a la escuela paso a paso";
    "advice.school.1" = "Paso 1. Haga en casa lo de un día normal. De cinco a quince minutos cada vez, luego más.";
    "advice.school.2" = "Paso 2. Haga algo de la escuela en casa.";
    "advice.school.3" = "Paso 3. Vaya a la escuela una parte del día, con pausas.";
    "advice.school.4" = "Paso 4. Vaya a la escuela todo el día.";
    "advice.school.rule" = "Dé el paso siguiente si solo se siente un poco peor y menos de una hora. Si es más, vuelva un paso atrás.";

    "advice.sport.title" = "Volver al deporte paso a paso";
    "advice.sport.1" = "Paso 1. Haga lo de un día normal. Descanse más de lo que juega.";
    "advice.sport.2" = "Paso 2. Camine o use una bici fija. Primero suave, luego algo más rápido.";
    "advice.sport.3" = "Paso 3. Entrene a solas. No haga nada que pueda darle un golpe en la cabeza.";
    "advice.sport.gate" = "Espere. Un médico debe decir que sí antes de seguir.";
    "advice.sport.4" = "Paso 4. Entrene fuerte con el equipo, pero sin contacto.";
    "advice.sport.5" = "Paso 5. Entrene con el equipo, con contacto.";
    "advice.sport.6" = "Paso 6. Juegue partidos otra vez.";
    "advice.sport.rule" = "Cada paso dura un día o más. Antes vaya a la escuela todo el día. Si se siente peor, vuelva un paso atrás y pregunte.";

    "exercise.near_point_practice.title" = "El lápiz a la nariz";
    "exercise.near_point_practice.why" = "Los ojos aprenden a girarse juntos hacia dentro. En niños no fue mejor que un ejercicio falso. Puede ayudar más a los adultos.";
    "exercise.near_point_practice.need" = "Un lápiz con una letra pequeña.";
    "exercise.near_point_practice.step1" = "Siéntese. Tome el lápiz con el brazo estirado. Deje los dos ojos abiertos.";
    "exercise.near_point_practice.step2" = "Mire la letra. Acérquela despacio a la nariz.";
    "exercise.near_point_practice.step3" = "Si ve dos letras, pare. Trate de ver una sola. Quédese ahí y cuente hasta quince.";
    "exercise.near_point_practice.step4" = "Si sigue viendo dos, aleje el lápiz un poco y pruebe otra vez. Al final mire por la ventana.";
    "exercise.near_point_practice.easier" = "Use una letra más grande. Pare a un palmo de la nariz.";
    "exercise.near_point_practice.stop" = "Le duele la cabeza o ve doble más de diez minutos después.";

    "exercise.bead_string.title" = "Tres bolas en una cuerda";
    "exercise.bead_string.why" = "Usted ve si los dos ojos miran la misma bola. Nadie lo ha probado por sí solo.";
    "exercise.bead_string.need" = "Una cuerda larga y tres bolas.";
    "exercise.bead_string.step1" = "Ate un lado a una puerta. Ponga el otro lado en la punta de la nariz.";
    "exercise.bead_string.step2" = "Ponga las bolas en la cuerda, lejos una de otra. La primera, lo más cerca que vea una sola.";
    "exercise.bead_string.step3" = "Mire la bola de lejos y cuente hasta diez. Verá dos cuerdas que se juntan en la bola.";
    "exercise.bead_string.step4" = "Ahora mire la bola del medio, y luego la de cerca. Después vuelva.";
    "exercise.bead_string.easier" = "Use dos bolas y póngalas más lejos.";
    "exercise.bead_string.stop" = "Solo ve una cuerda. Díganoslo.";

    "exercise.near_far_jumps.title" = "De cerca y de lejos";
    "exercise.near_far_jumps.why" = "Los ojos aprenden a pasar de cerca a lejos. No se sabe si ayuda mucho.";
    "exercise.near_far_jumps.need" = "Un lápiz y una foto en una pared a dos pasos grandes.";
    "exercise.near_far_jumps.step1" = "Ponga el lápiz delante de usted. Mírelo hasta verlo claro y uno solo.";
    "exercise.near_far_jumps.step2" = "Mire la foto hasta verla clara. Luego mire otra vez el lápiz.";
    "exercise.near_far_jumps.step3" = "Cuando sea fácil, acerque un poco el lápiz.";
    "exercise.near_far_jumps.easier" = "Deje el lápiz con el brazo estirado.";
    "exercise.near_far_jumps.stop" = "Ve borroso más de diez minutos después.";

    "exercise.slow_following.title" = "Siga su pulgar";
    "exercise.slow_following.why" = "Se acostumbra a mirar cosas que se mueven. No mejora el equilibrio ni la lectura.";
    "exercise.slow_following.need" = "Solo su pulgar.";
    "exercise.slow_following.step1" = "Siéntese. Ponga el pulgar delante de usted. Deje la cabeza quieta.";
    "exercise.slow_following.step2" = "Mueva el pulgar despacio a un lado y vuelva. Cuente hasta tres por cada lado. Los ojos van con él.";
    "exercise.slow_following.step3" = "Luego muévalo igual arriba y abajo.";
    "exercise.slow_following.easier" = "Vaya más despacio y no tan lejos.";
    "exercise.slow_following.stop" = "Ve dos pulgares. Díganoslo.";

    "exercise.two_target_jumps.title" = "Salte de nota en nota";
    "exercise.two_target_jumps.why" = "Se acostumbra a mirar rápido. No mejora el equilibrio ni la lectura.";
    "exercise.two_target_jumps.need" = "Dos notas con una letra en cada una.";
    "exercise.two_target_jumps.step1" = "Pegue las notas en una pared, a un palmo y medio una de otra. Siéntese a un paso grande.";
    "exercise.two_target_jumps.step2" = "Deje la cabeza quieta. Mire una letra y luego la otra, con el ritmo.";
    "exercise.two_target_jumps.step3" = "Después ponga una nota encima de la otra. Mire arriba y abajo.";
    "exercise.two_target_jumps.easier" = "Ponga las notas más cerca. Vaya más despacio.";
    "exercise.two_target_jumps.stop" = "No acierta la nota de un lado. Díganoslo.";

    "exercise.eyes_then_head.title" = "Primero los ojos, luego la cabeza";
    "exercise.eyes_then_head.why" = "Los ojos y la cabeza aprenden a ir juntos. Es parte de planes que ayudan.";
    "exercise.eyes_then_head.need" = "Dos hojas con una letra en cada una.";
    "exercise.eyes_then_head.step1" = "Siéntese. Ponga una hoja a un lado y otra al otro, hasta donde llega su mano.";
    "exercise.eyes_then_head.step2" = "Mire una hoja con los ojos. La cabeza no se mueve.";
    "exercise.eyes_then_head.step3" = "Ahora gire también la cabeza. Los ojos siguen en la letra.";
    "exercise.eyes_then_head.step4" = "Mire la otra hoja con los ojos. Luego gire la cabeza.";
    "exercise.eyes_then_head.easier" = "Vaya más despacio. Espere un poco en cada hoja.";
    "exercise.eyes_then_head.stop" = "Le duele el cuello.";

    "exercise.head_turn_seated.title" = "Gire la cabeza, en una silla";
    "exercise.head_turn_seated.why" = "Aprende a ver claro mientras mueve la cabeza. Los estudios dicen que ayuda a adultos que perdieron parte del equilibrio. Algunos lo dicen de los jóvenes.";
    "exercise.head_turn_seated.need" = "Una letra en la pared, a la altura de los ojos.";
    "exercise.head_turn_seated.step1" = "Siéntese a un paso grande de la pared. Mire la letra.";
    "exercise.head_turn_seated.step2" = "Gire la cabeza un poco a un lado y a otro. Los ojos se quedan en la letra.";
    "exercise.head_turn_seated.step3" = "Vaya tan rápido como pueda sin verla borrosa. Si la ve borrosa, vaya más despacio.";
    "exercise.head_turn_seated.step4" = "Descanse. Luego mueva la cabeza arriba y abajo.";
    "exercise.head_turn_seated.easier" = "Vaya más despacio. Gire menos. Pare a los diez segundos.";
    "exercise.head_turn_seated.stop" = "La letra sigue borrosa aunque vaya despacio, o le duele el cuello.";

    "exercise.head_turn_standing.title" = "Gire la cabeza, de pie";
    "exercise.head_turn_standing.why" = "Igual que en la silla, pero con las piernas. Hágalo si en la silla fue fácil tres días.";
    "exercise.head_turn_standing.need" = "Una letra en la pared y un rincón. Alguien se queda cerca.";
    "exercise.head_turn_standing.step1" = "Póngase en el rincón con los pies separados. Mire la letra.";
    "exercise.head_turn_standing.step2" = "Gire la cabeza un poco a un lado y a otro. Los ojos se quedan en la letra.";
    "exercise.head_turn_standing.step3" = "Descanse. Luego mueva la cabeza arriba y abajo.";
    "exercise.head_turn_standing.step4" = "Cuando sea fácil, junte los pies.";
    "exercise.head_turn_standing.easier" = "Hágalo en una silla.";
    "exercise.head_turn_standing.stop" = "Pierde el equilibrio.";

    "exercise.whole_body_turn.title" = "Gire con los pulgares";
    "exercise.whole_body_turn.why" = "Se acostumbra a que el cuarto pase ante sus ojos. No se sabe si ayuda mucho.";
    "exercise.whole_body_turn.need" = "Un sitio libre. Alguien se queda cerca.";
    "exercise.whole_body_turn.step1" = "Póngase de pie con los pies separados. Estire los brazos con los pulgares arriba.";
    "exercise.whole_body_turn.step2" = "Mire los pulgares. Gire brazos, cabeza y cuerpo a la vez hacia un lado.";
    "exercise.whole_body_turn.step3" = "Vuelva y siga hacia el otro lado, despacio, con el ritmo. Eso es una vez.";
    "exercise.whole_body_turn.step4" = "Espere hasta sentirse como antes. Luego siga.";
    "exercise.whole_body_turn.easier" = "Hágalo en una silla y gire menos.";
    "exercise.whole_body_turn.stop" = "Tiene ganas de vomitar y no se le pasan.";

    "exercise.stance_steps.title" = "De pie y firme";
    "exercise.stance_steps.why" = "Mejora su equilibrio. En un estudio con jóvenes hubo menos fallos.";
    "exercise.stance_steps.need" = "Un rincón o una mesa firme. Alguien se queda cerca.";
    "exercise.stance_steps.step1" = "Póngase en el rincón. Junte los pies.";
    "exercise.stance_steps.step2" = "Cuando sea fácil, ponga un pie medio paso delante.";
    "exercise.stance_steps.step3" = "Luego ponga el talón de un pie en la punta del otro.";
    "exercise.stance_steps.step4" = "Luego trate de estar sobre una pierna. Agárrese si hace falta.";
    "exercise.stance_steps.easier" = "Los pies separados y una mano en la mesa.";
    "exercise.stance_steps.stop" = "Casi se cae dos veces.";

    "exercise.heel_to_toe_walk.title" = "Camine por una línea";
    "exercise.heel_to_toe_walk.why" = "Camina más firme. Está en casi todos los planes, pero nadie lo ha probado por sí solo.";
    "exercise.heel_to_toe_walk.need" = "Una cinta en el suelo junto a la pared, de cuatro pasos grandes. Alguien camina con usted.";
    "exercise.heel_to_toe_walk.step1" = "Ponga la mano en la pared. Póngase en la línea.";
    "exercise.heel_to_toe_walk.step2" = "Ponga el talón de un pie en la punta del otro. Camine despacio hasta el final.";
    "exercise.heel_to_toe_walk.step3" = "Dé la vuelta despacio y regrese. Eso es una vez.";
    "exercise.heel_to_toe_walk.easier" = "Deje algo de espacio entre los pies. No quite la mano de la pared.";
    "exercise.heel_to_toe_walk.stop" = "Cada día se sale más de la línea. Díganoslo.";

    "exercise.familiar_movements.title" = "Acostúmbrese a un movimiento";
    "exercise.familiar_movements.why" = "Un movimiento que marea lo hace menos si se repite. En un estudio grande ayudó al final.";
    "exercise.familiar_movements.need" = "Una cama o una silla. Haga solo los movimientos que le mostraron.";
    "exercise.familiar_movements.step1" = "Siéntese y espere hasta estar en calma.";
    "exercise.familiar_movements.step2" = "Haga despacio el movimiento que le mostraron.";
    "exercise.familiar_movements.step3" = "Debe marearle un poco, pero no más. Espere hasta que se pase.";
    "exercise.familiar_movements.step4" = "Repita. Cuando sea fácil, hágalo algo más rápido.";
    "exercise.familiar_movements.easier" = "Haga un solo movimiento, muy despacio.";
    "exercise.familiar_movements.stop" = "Al echarse, todo da vueltas más de un minuto. Díganoslo.";

    "exercise.busy_scenes.title" = "Sitios con mucha gente, poco a poco";
    "exercise.busy_scenes.why" = "Se acostumbra a las tiendas y a la gente. Ayudó a algunos como parte de un plan.";
    "exercise.busy_scenes.need" = "Un asiento junto a una ventana o en una tienda. Alguien va con usted.";
    "exercise.busy_scenes.step1" = "Siéntese lejos de lo que se mueve. Mírelo un rato corto.";
    "exercise.busy_scenes.step2" = "Mire un punto quieto. Descanse hasta sentirse como antes.";
    "exercise.busy_scenes.step3" = "Los días buenos vaya algo más cerca, o de pie.";
    "exercise.busy_scenes.easier" = "Mire una foto con muchas cosas que no se mueven.";
    "exercise.busy_scenes.stop" = "Se siente raro o ve líneas con luz. Tape un ojo y mire a otro lado.";

    "exercise.steady_walk.title" = "Un paseo a buen paso";
    "exercise.steady_walk.why" = "Le ayuda a curarse. En los estudios, los jóvenes que caminaron cada día sanaron unos días antes.";
    "exercise.steady_walk.need" = "Buenos zapatos y un camino llano. Un adulto va con usted.";
    "exercise.steady_walk.step1" = "Camine tan rápido que respire más, pero pueda hablar.";
    "exercise.steady_walk.step2" = "Si se siente peor, vaya más despacio. Si no ayuda, pare por hoy.";
    "exercise.steady_walk.step3" = "Acabe con un paseo lento.";
    "exercise.steady_walk.easier" = "Camine diez minutos a su paso.";
    "exercise.steady_walk.stop" = "Se siente más de dos puntos peor.";

    "picture.near_point_practice" = "Una persona acerca poco a poco un lápiz a la nariz.";
    "picture.bead_string" = "Una persona sujeta una cuerda en la nariz. La otra punta está atada a una puerta. Lleva tres bolas.";
    "picture.near_far_jumps" = "Una persona mira un lápiz, luego un cuadro en la pared, y vuelve.";
    "picture.slow_following" = "Una persona mueve el pulgar de un lado a otro. Los ojos van con él. La cabeza no se mueve.";
    "picture.two_target_jumps" = "Una persona está sentada frente a dos notas en la pared. Los ojos saltan de una a otra.";
    "picture.eyes_then_head" = "Primero los ojos miran una tarjeta. Luego gira la cabeza hacia ella.";
    "picture.head_turn_seated" = "Una persona sentada mira una letra en la pared. La cabeza gira de un lado a otro.";
    "picture.head_turn_standing" = "Una persona de pie en una esquina mira una letra en la pared. La cabeza gira de un lado a otro.";
    "picture.whole_body_turn" = "Una persona estira los brazos con los pulgares hacia arriba. Todo el cuerpo gira de un lado a otro.";
    "picture.stance_steps" = "Una persona se apoya en una mesa alta. Cuatro pares de pies dicen cómo ponerse: juntos, uno algo delante, talón con punta, sobre un pie.";
    "picture.heel_to_toe_walk" = "Una persona camina sobre una línea, talón con punta, con una mano en la pared.";
    "picture.familiar_movements" = "Una persona sentada en la cama se echa poco a poco y se vuelve a sentar.";
    "picture.busy_scenes" = "Una persona sentada mira por la ventana a la gente y un coche que pasan.";
    "picture.steady_walk" = "Un niño y un adulto caminan y hablan.";
}
