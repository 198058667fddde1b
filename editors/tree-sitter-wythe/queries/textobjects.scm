(buildup_declaration (block) @function.inside) @function.around
(fn_declaration) @function.around
(joint_declaration (block) @function.inside) @function.around
(rule_declaration (block) @function.inside) @function.around

(foundation_declaration (block) @class.inside) @class.around
(product_declaration (block) @class.inside) @class.around
(site_declaration (block) @class.inside) @class.around

(parameter) @parameter.inside
(argument) @parameter.inside

(layer) @entry.around
(property) @entry.around

(comment) @comment.inside
(doc_comment) @comment.inside

(test_declaration (block) @test.inside) @test.around
